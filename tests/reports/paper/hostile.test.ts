import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { RecordedEntry } from '../../../src/bundle/entries.ts';
import { readProcedure } from '../../../src/procedure/read-procedure.ts';
import { html } from '../../../src/reports/paper/html.ts';
import { label } from '../../../src/reports/paper/label.ts';
import { prose } from '../../../src/reports/paper/prose.ts';
import { sheet } from '../../../src/reports/paper/sheet.ts';
import { given } from '../../bundle/story.ts';
import { fewPieces, headed } from '../../procedure/any-procedure.ts';
import { english, matterOf, onTicket, written } from './matter.ts';

const EVIL = `</td></style></title><script>alert(1)</script><img src=x onerror="alert(2)"> "'\`><a href=javascript:alert(3)>x</a> &amp; \u202e\u200b`;

/** Tags and attributes that our own markup has; all others would be somebody else's. */
const TAGS =
  /^(?:html|head|meta|title|style|body|table|thead|tbody|tr|td|th|div|span|b|i|s|p|br|hr|h1|h2|ul|ol|li|pre|code|blockquote|section|figure|figcaption|img|svg|path|circle)$/;
const ATTRIBUTES =
  /^(?:lang|charset|http-equiv|content|name|class|src|alt|width|height|viewBox|role|aria-label|d|fill|stroke|stroke-width|stroke-linejoin|cx|cy|r|shape-rendering|preserveAspectRatio|start|style)$/;

function expectOurs(page: string): void {
  const markup = page.replace(/<style>[^<]*<\/style>/, '<style></style>').replace('<!doctype html>', '');
  for (const [whole, , name = '', rest = ''] of markup.matchAll(/<(\/?)([^\s>/]*)([^>]*)>/g)) {
    expect([whole, TAGS.test(name)]).toEqual([whole, true]);
    for (const [, attribute = '', value = ''] of rest.replace(/\/$/, '').matchAll(/([^\s="]+)(?:="([^"]*)")?/g)) {
      expect([whole, ATTRIBUTES.test(attribute)]).toEqual([whole, true]);
      if (attribute === 'src') expect(value).toMatch(/^data:image\/(?:png|jpeg|svg\+xml);base64,[\w+/=]*$/);
      if (attribute === 'style') expect(value).toMatch(/^font-size:\d+pt$/);
    }
  }
  expect(markup.replace(/<[^>]*>/g, '')).not.toMatch(/[<>]/);
  expect(page).not.toMatch(/[\u202e\u200b\u0000-\u0009\u000b-\u001f]/);
}

test('words are words, in text and in quoted attributes', () => {
  expect(html`<p title="${'"><b>'}">${'<i>&'}</p>`.markup).toBe(
    '<p title="&#34;&#62;&#60;b&#62;">&#60;i&#62;&#38;</p>',
  );
  expect(html`${'a\u202eb\u0007'}`.markup).toBe('a⟨U+202E⟩b␇');
});

test.each([
  ['<script>alert(1)</script>', /&#60;script&#62;/],
  ['a <b onclick="x">b</b>', /&#60;b onclick=&#34;x&#34;&#62;/],
  ['[words](javascript:alert(1))', /^<p>words \(javascript:alert\(1\)\)<\/p>$/],
  ['![alt](http://example.invalid/x.png)', /^<p>\[alt\]<\/p>$/],
  ['<http://example.invalid/>', /^<p>http:\/\/example\.invalid\/<\/p>$/],
  ['`<i>` and **<u>**', /<code>&#60;i&#62;<\/code> and <b>&#60;u&#62;<\/b>/],
  ['&lt;b&gt; &#60;b&#62; 5 &deg;', /&#60;b&#62; &#60;b&#62; 5 °/],
  ['&#x202e;abc', /⟨U\+202E⟩abc/],
  ['| <a> | b |\n| --- | --- |\n| c | ~~<d>~~ |', /<th>&#60;a&#62;<\/th>.*<s>&#60;d&#62;<\/s>/],
  ['> quoted <e>\n\n```\n<pre>\n```', /<blockquote><p>quoted &#60;e&#62;<\/p><\/blockquote><pre>&#60;pre&#62;<\/pre>/],
  ['1. one\n2. two\n   - three', /<ol start="1"><li>.*one.*<ul><li>.*three/],
  ['a  \nb', /a<br>b/],
])('prose cannot bring markup of its own: %j', (markdown, expected) => {
  const { markup } = prose(markdown);
  expect(markup).toMatch(expected);
  expectOurs(markup);
});

test('prose nested without end is shown as it was written', () => {
  expect(prose('>'.repeat(20_000)).markup).toMatch(/^<(?:p|blockquote)>/);
});

test('nothing that a procedure, a name or a roll says becomes markup on a sheet or a label', () => {
  const line = EVIL.replaceAll('\u202e', '').replaceAll('\u200b', '');
  const yaml = JSON.stringify(line);
  const procedure = written(`---
procedure: EVIL
title: ${yaml}
kit:
  A: ${yaml}
---

Above ${line}

## Sew ${line} {#sew}

- Seams: D1 ${line}
- If out: unpick ${line}
- Needs skill: ${line}

> **WARNING** Iron ${line}

Some ${line}

![Panel ${line.replace(/[[\]]/g, '')}](../media/a.svg#A,B)

- [ ] Lies ${line}
- [ ] Width ${line} ____ mm (12)
- [ ] Colour ____ (**<img onerror="&'>** / blue)
- [ ] **Hold point** ${line}
`);
  const { bundle } = onTicket(given(procedure).world);
  const rolls = [EVIL];
  const evil = { bundle: { ...bundle, rolls }, copy: 1 };
  const pictures = new Map([['../media/a.svg', new TextEncoder().encode('<svg><script>alert(1)</script></svg>')]]);
  const page = sheet(matterOf(procedure, { ticket: evil, pictures }));
  expect(page).toContain('&#60;script&#62;');
  expectOurs(page);
  expectOurs(label(english, procedure, EVIL, evil));
});

test('what was answered is words too', () => {
  const procedure = written('---\nprocedure: P\ntitle: P\n---\n\n## Sew {#sew}\n\n- [ ] Roll ____ {#roll}\n');
  const { world } = given(procedure);
  const { bundle } = onTicket(world);
  if (!bundle) throw new Error('no bundle');
  const check = {
    step: 'sew',
    point: 'roll',
    set: 1,
    place: 1,
    value: EVIL,
    unit: null,
    verdict: 'not judged',
    at: '2026-11-25T10:42:00Z',
    hand: '<b>' as RecordedEntry['hand'],
    struck: null,
    again: false,
  };
  const checks = new Map([['1 sew', new Map([['1 sew roll', [check]]])]]) as never;
  const page = sheet(matterOf(procedure, { ticket: { bundle: { ...bundle, checks }, copy: 0 } }));
  expect(page).toContain('&#60;img src=x');
  expectOurs(page);
});

test('whatever stands in a text, its sheet has no markup but ours', () => {
  const words = fc.constantFrom(
    '<script>',
    '</style>',
    '&lt;b&gt;',
    '"',
    "' onload=x",
    '<!--',
    ']]>',
    '&#60;i&#62;',
    '<a href=x>',
    '`<u>`',
    '~~<s>~~',
    '![x](http://y)',
    '| <td> |\n|---|',
  );
  const texts = fc
    .oneof(headed, fewPieces)
    .chain((text) => fc.array(words).map((evil) => `${text} ${evil.join(' ')}\n`));
  fc.assert(
    fc.property(texts, (text) => {
      const { procedure } = readProcedure(text, 'p.md');
      expectOurs(sheet(matterOf(procedure)));
    }),
    { numRuns: 500 },
  );
});
