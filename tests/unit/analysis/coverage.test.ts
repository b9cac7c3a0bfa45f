/** Decisions: whether their options cover all that may be found. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head
finding wall "Wall" { intact, thin, lost }
finding bleeding "Bleeding" { stopped, brisk }
finding root "Root" { whole, broken }
`;

test('every value has its option', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall "Probe" {
      option intact { }
      option thin { }
      option lost { }
    }
  }
}
`);
});

test('values may share an option', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall "Probe" {
      option intact or thin { }
      option lost { }
    }
  }
}
`);
});

test('any and otherwise take what is left', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall "Probe" {
      option lost { }
      option any { }
    }
    decide wall "Probe again" {
      option lost { }
      otherwise { }
    }
  }
}
`);
});

test('what is missing is named, of several findings in their combination', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall, bleeding "Probe" {
    //     ^^^^ option_missing: wall is lost and bleeding is brisk
      option intact, any { }
      option any, stopped { }
      option thin, brisk { }
    }
  }
}
`);
});

test('several findings are covered one by one', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall, bleeding, root "Probe" {
      option intact, any, any { }
      option any, stopped, any { }
      option any, brisk, whole { }
      option thin or lost, brisk, broken { }
    }
  }
}
`);
});

test('an option that others take together is never taken', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall, bleeding "Probe" {
      option any, stopped { }
      option any, brisk { }
      option thin, any { }
//    ^^^^^^^^^^^^^^^^ option_unreachable
    }
  }
}
`);
});

test('otherwise after everything is never taken', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall "Probe" {
      option intact or thin or lost { }
      otherwise { }
//    ^^^^^^^^^ option_unreachable
    }
  }
}
`);
});

test('a value that is not there covers nothing', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall "Probe" {
    //     ^^^^ option_missing
      option intact or thin { }
      option gone { }
      //     ^^^^ option_unknown
    }
  }
}
`);
});

test('a finding that is not there is told once, and its options are not judged', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wal "Probe" {
    //     ^^^ unknown_name
      option intact { }
      option gone { }
    }
  }
}
`);
});

test('too few values in an option leave the rest open', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall, bleeding "Probe" {
      option lost { }
      otherwise { }
    }
  }
}
`);
});

test('a decision over the same finding twice is told', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide wall, wall "Probe" {
    //           ^^^^ duplicate_name
      option intact, intact { }
      otherwise { }
    }
  }
}
`);
});

test('a million combinations are looked through in no time, and the one that is missing is found', () => {
  const findings = Array.from({ length: 20 }, (_, i) => `f${i}`);
  const declared = findings.map((name) => `finding ${name} { present, absent }\n`).join('');
  const rows = findings.map(
    (_, i) => `      option ${findings.map((_, j) => (i === j ? 'present' : 'any')).join(', ')} { }\n`,
  );
  const protocol = (options: string) => `// quiet: missing_head
${declared}protocol p "P" {
  visit v "V" {
    decide ${findings.join(', ')} "Look" {
    //     ^^ option_missing: f0 is absent, f1 is absent
${options}    }
  }
}
`;
  check(protocol(rows.join('')));
});
