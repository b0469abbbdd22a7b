import type { Language } from '../../base/language.ts';
import { type Html, html } from './html.ts';

/** A page for a browser to print: whole in itself, without programs, and forbidden to fetch anything. */
export const page = (title: string, style: string, body: Html, language: Language): string =>
  `<!doctype html>\n${
    html`<html lang="${language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width">
<title>${title}</title>
<style>${{ markup: style }}</style>
</head>
<body>
${body}
</body>
</html>
`.markup
  }`;
