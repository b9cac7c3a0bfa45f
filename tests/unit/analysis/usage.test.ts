/** What is listed and what is used, how much of it, and what steps ask of the properties of their things. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged
finding bleeding "Bleeding" { stopped, brisk }
kind solution "solution" is material {
  cartridge : volume
}
kind pad "pad" is material
kind probe "probe" is instrument
solution house "House solution" { cartridge 1.7 mL }
action inject (solution s) (volume v) at (place p) { uses up s v }
action empty (solution s) { uses up s }
action press (pad p) on (place q) with (optional probe t)
action wipe (one or more pad p)
`;

test('listed and used is right, whatever the slot', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { a : pad, b : pad, s : house 1.7 mL }
  instruments { probe }
  visit v "V" {
    press a on site with probe
    wipe a, b
    inject s 1 mL at site
  }
}
`);
});

test('listed and not used is told of materials and instruments, not of what is given', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place, other : place }
  materials { a : pad, b : pad }
  //                   ^ never_used (warning)
  instruments { probe }
  //            ^^^^^ never_used (warning)
  visit v "V" {
    press a on site
  }
}
`);
});

test('used on one option only is used', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { a : pad }
  visit v "V" {
    decide bleeding "Look" {
      option stopped { }
      option brisk { press a on site }
    }
  }
}
`);
});

test('more than there is on every path is an error, over all visits together', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 mL }
  //                    ^^^^ over_used (error): 2.4 mL
  visit one "First" {
    inject s 1.2 mL at site
  }
  visit two "Second" {
    inject s 1.2 mL at site
  }
}
`);
});

test('more than there is on one option only is a warning', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 mL }
  //                    ^^^^ over_used (warning)
  visit one "First" {
    inject s 1.2 mL at site
    decide bleeding "Look" {
      option stopped { }
      option brisk { inject s 1 mL at site }
    }
  }
}
`);
});

test('options are not added to each other', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 mL }
  visit one "First" {
    decide bleeding "Look" {
      option stopped { inject s 1.2 mL at site }
      option brisk { inject s 1 mL at site }
    }
  }
}
`);
});

test('as often as it may be repeated counts', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 mL }
  //                    ^^^^ over_used (warning)
  visit one "First" {
    repeat until "Numb" at most 3 times { inject s 1 mL at site }
  }
}
`);
});

test('lanes are added to each other', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place, other : place }
  materials { s : house 2 mL }
  //                    ^^^^ over_used (error)
  visit one "First" {
    together {
      lane one { inject s 1.2 mL at site }
      lane two { inject s 1.2 mL at other }
    }
  }
}
`);
});

test('cartridges count as what is in them', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 cartridges, t : house 1 cartridge }
  //                                            ^^^^^^^^^^^ over_used (error)
  visit one "First" {
    inject s 3.4 mL at site
    inject t 1.8 mL at site
  }
}
`);
});

test('a dose in cartridges counts as what is in them', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 3.4 mL, t : house 3 mL }
  //                                      ^^^^ over_used (error)
  visit one "First" {
    inject s 2 cartridges at site
    inject t 2 cartridges at site
  }
}
`);
});

test('exactly what is listed is enough', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 mL }
  visit one "First" {
    inject s 0.7 mL at site
    inject s 1.3 mL at site
  }
}
`);
});

test('a range that may be too much is a warning', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house 2 mL }
  //                    ^^^^ over_used (warning)
  visit one "First" {
    inject s 1..3 mL at site
  }
}
`);
});

test('a thing with no amount listed is not added up', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { s : house }
  visit one "First" {
    inject s 10 mL at site
    empty s
  }
}
`);
});

test('the same line twice is told, other than a pause or with something between', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { a : pad }
  visit one "First" {
    press a on site
    press a on site
//  ^^^^^^^^^^^^^^^ repeated_step (advice)
    note "Look"
    press a on site
    decide bleeding "Look" {
      option stopped { }
      option brisk {
        press a on site
        press a on site
//      ^^^^^^^^^^^^^^^ repeated_step (advice)
      }
    }
  }
}
`);
});

test('a property of the thing used that another needs', () => {
  check(`${KIT}
kind screw "screw" is material {
  length : length
  torque : torque range
}
kind driver "driver" is instrument {
  torque : torque
}
action drive (screw s) with (driver d) {
  needs s.length <= 10 mm because "The canal lies deeper"
  needs d.torque within s.torque
}
protocol p "P" {
  materials {
    a : screw { length 8 mm, torque 25..45 N.cm }
    b : screw { length 12 mm, torque 25..45 N.cm }
    c : screw { length 9..11 mm, torque 50..60 N.cm }
    e : screw { length 8 mm }
  }
  instruments { d : driver { torque 35 N.cm } }
  visit v "V" {
    drive a with d
    drive b with d
    //    ^ unmet_need (error)
    drive c with d
    //    ^ unmet_need (warning)
    //           ^ unmet_need (error)
    drive e with d
    //           ^ undecided (warning)
  }
}
`);
});

test('a need may be composed of others', () => {
  check(`${KIT}
kind screw "screw" is material {
  states boxed -> open -> dirty, boxed -> dirty
}
action drive (screw s) {
  needs s open or s boxed
  makes s dirty
}
action open (screw s) { makes s open }
protocol p "P" {
  materials { a : screw, b : screw }
  visit v "V" {
    drive a
    drive a because "Again"
    //    ^ unmet_need (error)
    open b
    drive b
  }
}
`);
});
