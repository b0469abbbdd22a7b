/**
 * The text without its control functions, for text that is to be kept rather than looked at, such as a paste into a field.
 * Whole sequences go, not only their first character. Tab and line feed stay; CR LF becomes a line feed; bidi controls go too.
 *
 * Grammar: ECMA-48, 5th edition (1991), 5.4 control sequences and 5.6 control strings; ECMA-35 for escapes with intermediate
 * bytes. Ours: BEL ends a string as terminals have it, and a string that is never ended stops at the end of its line.
 */
export function stripControls(text: string): string {
  return text.replace(/\r\n/g, '\n').replace(CONTROL, '');
}

const CONTROL_SEQUENCE = String.raw`(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]?`;
const CONTROL_STRING = String.raw`(?:\x1b[\]PX^_]|[\x9d\x90\x98\x9e\x9f])[^\x1b\x07\x9c\x18\x1a\n]*(?:\x1b\\|[\x07\x9c\x18\x1a])?`;
const ESCAPE = String.raw`\x1b(?:[ -/]+[0-~]?|[0-~])?`;
const LONE = String.raw`[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]`;
const CONTROL = new RegExp([CONTROL_SEQUENCE, CONTROL_STRING, ESCAPE, LONE].join('|'), 'g');
