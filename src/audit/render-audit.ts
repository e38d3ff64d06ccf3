import { pageStyle } from '../book/book-style.js';
import { renderPage } from '../book/render-page.js';
import type { AuditPage } from './audit-page.js';

/** A pack's page data as one self-contained HTML file: no script, nothing asked for from outside. */
export function renderAudit(page: AuditPage): string {
  // Tables as wide as these stand on the sheet's long side.
  const style = `${pageStyle(page, 'audit.css')}\n@page{size:${page.paper} landscape;margin:13mm 14mm 15mm}`;
  return renderPage('audit.njk', page, style);
}
