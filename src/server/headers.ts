/** Headers of every answer. docs/page-security.md says what each is for. */

/** Nothing but what comes from this server: no outside script, style, picture or connection, no frame around it. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'", // the computing kernel is WebAssembly
  "style-src 'self' 'unsafe-inline'", // charts carry style attributes
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

const CLOSED = [
  "accelerometer",
  "camera",
  "display-capture",
  "geolocation",
  "gyroscope",
  "hid",
  "magnetometer",
  "microphone",
  "midi",
  "payment",
  "serial",
  "usb",
];

export const HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": CONTENT_SECURITY_POLICY,
  "X-Content-Type-Options": "nosniff",
  "X-Frame-Options": "DENY",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin", // this and the next: threads of the page may share memory
  "Cross-Origin-Embedder-Policy": "require-corp",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Permissions-Policy": CLOSED.map(feature => `${feature}=()`).join(", "),
  "Cache-Control": "no-store", // files of the page say otherwise
};

/** Names of assets hold a hash of their content; everything else of the page is asked for anew each time. */
export function cachingOf(file: string): string {
  return /[\\/]assets[\\/][^\\/]+$/.test(file) ? "public, max-age=31536000, immutable" : "no-cache";
}
