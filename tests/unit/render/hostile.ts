/** Texts that would do something if they were taken for more than text. `\\"` is the language's own escape. */
export const hostileTexts: readonly string[] = [
  '<script>alert(1)</script>',
  '\\"><img src=x onerror=alert(1)>',
  `\`rm -rf /\` $(rm) \${process.exit()}`,
  '</style><style>*{display:none}',
  '--> <!-- ]]>',
  '&lt;b&gt; &#60;',
  "' onmouseover='alert(1)",
  '[click](javascript:alert(1)) ![x](http://example.invalid/x.png)',
  'https://example.invalid www.example.invalid <https://example.invalid> me@example.invalid',
  '# heading * _ ~~ | > quote',
  '+ item',
  '1. item',
  '\u202Eevil\u202C \u001b[31mred\u0007',
];

/** A protocol that has a text of that sort wherever a text may stand. */
export function hostileProtocol(text: string): string {
  return `
source s "${text}" {
  by "${text}"
  year 2020
  identifier "${text}"
}
finding f "${text}" {
  one "${text}"
  two "${text}"
}
pause p "${text}" {
  item  "${text}"
  takes 1 min
}
kind gadget "${text}" is material
instrument tool "${text}"
gadget thing "${text}"
action use "${text}" (gadget g) with (tool t) {
  needs g is gadget because "${text}"
  takes 1 min
}
/// ${text}
protocol a "${text}" {
  version 1.0.0
  status  draft
  owner   "${text}"
  approved 2026-01-01 by "${text}"
  given { patient : patient }
  exclude when patient has diabetes because "${text}" source s
  caution when patient has smoking because "${text}"
  team { surgeon }
  materials { g : thing }
  instruments { tool }
  visit v "${text}" {
    pause p { item "${text}" }
    use g with tool because "${text}" source s
    verify "${text}" otherwise "${text}"
    decide f "${text}" {
      option one "${text}" { note "${text}" }
      option two { stop "${text}" }
    }
    together {
      lane l "${text}" { use g with tool }
    }
    repeat until "${text}" at most 2 times { use g with tool }
    complication "${text}" { note "${text}" }
    instruct "${text}" at home
    record photograph "${text}"
  }
  wait 1 wk because "${text}"
}
`;
}
