/** How a tool writes a document of docs/: in the form that `npm run format:check` asks for. */
import { writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';

/**
 * Writes a Markdown document, its tables aligned by the project's own Prettier settings, so that
 * nobody has to format it by hand after a run.
 *
 * @param file where it goes; the settings are those that hold for this path
 */
export async function writeMarkdown(file: string, text: string): Promise<void> {
  const style = await resolveConfig(file);
  writeFileSync(file, await format(text, { ...style, parser: 'markdown' }));
}
