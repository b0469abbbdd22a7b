/** The expression of a computed point: `+ - * /`, brackets, `|x|` for the size of x, numbers and names of readings. */
export type Formula =
  | { readonly do: 'number'; readonly value: string }
  | { readonly do: 'name'; readonly name: string }
  | { readonly do: 'size'; readonly of: Formula }
  | { readonly do: 'minus'; readonly of: Formula }
  | { readonly do: '+' | '-' | '*' | '/'; readonly left: Formula; readonly right: Formula };
