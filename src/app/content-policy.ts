/**
 * What the page may load: only its own files, and nothing from any other address.
 *
 * Used in the page itself and as a header by the server. A header can also forbid to be framed.
 */

/** The content security policy as text. */
export function contentPolicy({ header }: { readonly header: boolean }): string {
  const rules = [
    "default-src 'none'",
    "script-src 'self'",
    "worker-src 'self'",
    "style-src 'self'",
    "img-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ];
  if (header) rules.push("frame-ancestors 'none'");
  return rules.join('; ');
}
