/** What the extension sends to the checklist's page. */
export type ToPage =
  | { readonly kind: 'page'; readonly html: string }
  | { readonly kind: 'failure'; readonly text: string };
