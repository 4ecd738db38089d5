import js from '@eslint/js';
import lit from 'eslint-plugin-lit';
import wc from 'eslint-plugin-wc';
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

export default defineConfig(
  { ignores: ['dist/', 'coverage/', 'node_modules/', '**/*.cjs'] },
  js.configs.recommended,
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      // Numbers in messages are the point of our messages.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // Columns are indexed in loops whose bounds are the column's own length.
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      eqeqeq: 'error',
    },
  },
  {
    // Below app and cli the same input gives the same output, in any place and at any time.
    files: ['src/**/*.ts'],
    ignores: ['src/cli/**', 'src/app/**'],
    rules: {
      'no-console': 'error',
      'no-restricted-globals': [
        'error',
        ...['process', 'Buffer', 'window', 'document', 'navigator', 'location', 'localStorage'],
        ...['sessionStorage', 'indexedDB', 'fetch', 'XMLHttpRequest', 'WebSocket', 'performance'],
        ...['setTimeout', 'setInterval'],
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The time is an argument.' },
        { object: 'Math', property: 'random', message: 'Chance is an argument.' },
        { object: 'crypto', property: 'randomUUID', message: 'Chance is an argument.' },
        { object: 'crypto', property: 'getRandomValues', message: 'Chance is an argument.' },
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: "NewExpression[callee.name='Date'][arguments.length=0]",
          message: 'The time is an argument.',
        },
      ],
    },
  },
  {
    files: ['src/app/**/*.ts'],
    extends: [recommended(lit), recommended(wc)],
  },
  {
    // Parts of these programs run inside the page.
    files: ['tests/tools/page-cost.mjs', 'tests/tools/screens.mjs'],
    languageOptions: {
      globals: {
        ...{ document: 'readonly', location: 'readonly', performance: 'readonly' },
        ...{ MutationObserver: 'readonly', PointerEvent: 'readonly' },
        ...{ requestAnimationFrame: 'readonly' },
      },
    },
  },
  {
    files: ['**/*.mjs'],
    languageOptions: {
      globals: { process: 'readonly', console: 'readonly', URL: 'readonly', Buffer: 'readonly' },
    },
    // A cast in a comment gives JSON its type for the compiler; this rule does not see it.
    rules: { '@typescript-eslint/no-unsafe-assignment': 'off' },
  },
);

/**
 * A plugin's own recommendation; its types leave open whether it has one.
 *
 * @param {{ configs?: Record<string, unknown> | undefined }} plugin
 * @returns {import('eslint').Linter.Config}
 */
function recommended({ configs }) {
  return /** @type {import('eslint').Linter.Config} */ (configs?.['flat/recommended']);
}
