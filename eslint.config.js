import js from '@eslint/js';
import tseslint from 'typescript-eslint';

export default tseslint.config(
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
    // Nothing below app and cli speaks to the console.
    files: ['src/**/*.ts'],
    ignores: ['src/cli/**', 'src/app/**'],
    rules: { 'no-console': 'error', 'no-restricted-globals': ['error', 'process', 'window', 'document', 'localStorage', 'fetch'] },
  },
  {
    files: ['**/*.mjs'],
    languageOptions: { globals: { process: 'readonly', console: 'readonly', URL: 'readonly', Buffer: 'readonly' } },
  },
);
