// The toy language of the peers without one of their own: a list of steps, each naming an earlier one.
export const grammar = `
grammar Steps
entry Model: 'steps' '{' steps+=Step* '}';
Step: 'step' name=ID 'after' (before=[Step:ID] | first?='none') 'takes' min=INT '..' max=INT unit=Unit;
Unit returns string: 'min' | 'h' | 'd';
hidden terminal WS: /\\s+/;
hidden terminal ML_COMMENT: /\\/\\*[\\s\\S]*?\\*\\//;
terminal ID: /[_a-zA-Z][\\w_]*/;
terminal INT returns number: /[0-9]+/;
`;
