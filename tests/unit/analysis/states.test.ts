/** States and duties followed through steps, decisions, lanes, repetitions, complications and visits. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged
finding wall "Wall" { intact, thin, lost }
finding bleeding "Bleeding" { stopped, brisk }
kind pack "pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit source common_practice
}
kind graft "graft" is material {
  states dry -> wetted -> packed, any -> discarded
}
action place (pack p) { makes p in_place }
action remove (pack p) { makes p removed }
action wet (graft g) { makes g wetted }
action discard (graft g) { makes g discarded }
action pack (graft g) {
  needs g wetted because "Dry it floats out"
  makes g packed
}
`;

test('a step before it makes a thing ready', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    wet g
    pack g
  }
}
`);
});

test('a step that comes too late does not', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    pack g
    //   ^ wrong_state
    wet g
    //  ^ impossible_move
  }
}
`);
});

test('what is told once is not told again at every later step', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    pack g
    //   ^ wrong_state: "g" is still dry
    discard g
  }
}
`);
});

test('a step on one option is not enough', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    decide wall "Probe" {
      option intact or thin { wet g }
      option lost { }
    }
    pack g
    //   ^ wrong_state: When wall is lost
  }
}
`);
});

test('a step on every option is enough', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    decide wall "Probe" {
      option intact or thin { wet g }
      option lost { wet g }
    }
    pack g
  }
}
`);
});

test('an option that stops asks nothing of what comes after', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    decide wall "Probe" {
      option intact or thin { wet g }
      option lost { stop "Refer" }
    }
    pack g
  }
}
`);
});

test('what was placed on one option and comes out on the same finding later stays silent', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    decide bleeding "Look" {
      option stopped { }
      option brisk { place a }
    }
    note "Wait"
    decide bleeding "Look again" {
      option stopped { }
      option brisk { remove a }
    }
  }
}
`);
});

test('what comes out on the other finding is told on both', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    decide bleeding "Look" {
      option stopped { }
      option brisk { place a }
      //                   ^ left_undone
    }
    decide bleeding "Look again" {
      option stopped { remove a }
      //                      ^ impossible_move
      option brisk { }
    }
  }
}
`);
});

test('values of one finding drawn together in one option and taken apart later agree', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    decide wall "Probe" {
      option thin or lost { place a }
      //                          ^ left_undone: When wall is lost
      option intact { }
    }
    decide wall "Probe again" {
      option thin { remove a }
      otherwise { note "Nothing" }
    }
  }
}
`);
});

test('a decision over two findings agrees with one over one of them', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    decide bleeding "Look" {
      option stopped { }
      option brisk { place a }
    }
    decide wall, bleeding "Look again" {
      option any, brisk { remove a }
      option any, stopped { }
    }
  }
}
`);
});

test('a pack that stays in on one of two findings is told with that finding', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    place a
    //    ^ left_undone: When bleeding is brisk
    decide bleeding "Look" {
      option stopped { remove a }
      option brisk { note "Press" }
    }
  }
}
`);
});

test('a stop inside a decision is an end as well', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    place a
    //    ^ left_undone
    decide bleeding "Look" {
      option stopped { }
      option brisk { stop "Refer" }
    }
    remove a
  }
}
`);
});

test('what a verification asks to do otherwise may happen or not', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack, g : graft }
  visit v "V" {
    verify "Dry" otherwise {
      place a
      //    ^ left_undone
    }
    verify "Wet enough" otherwise {
      wet g
    }
    pack g
    //   ^ wrong_state
  }
}
`);
});

test('a complication may happen or not, and cleans up after itself', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack, b : pack }
  visit v "V" {
    complication "It bleeds" {
      place a
      remove a
    }
    complication "It bleeds again" {
      place b
      //    ^ left_undone
    }
  }
}
`);
});

test('a repetition that ends as it begins may go round', () => {
  check(`${KIT}
kind swab "swab" is material {
  states clean -> in_use -> clean
}
action press (swab s) { makes s in_use }
action lift (swab s) { makes s clean }
protocol p "P" {
  materials { s : swab }
  visit v "V" {
    repeat until "Dry" at most 3 times {
      press s
      lift s
    }
  }
}
`);
});

test('a repetition that leaves a thing where it cannot begin again is told', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    repeat until "Level" at most 3 times {
      wet g
      //  ^ impossible_move: When it is done a second time
      pack g
    }
  }
}
`);
});

test('a repetition of once is done once', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    repeat until "Level" at most 1 times {
      wet g
      pack g
    }
  }
}
`);
});

test('lanes side by side each begin where the work before them ended', () => {
  check(`${KIT}
protocol p "P" {
  team { surgeon, assistant }
  materials { a : pack, g : graft }
  visit v "V" {
    place a
    together {
      lane one by surgeon { remove a }
      lane two by assistant { wet g }
    }
    pack g
  }
}
`);
});

test('two lanes on one thing are told once', () => {
  check(`${KIT}
protocol p "P" {
  team { surgeon, assistant }
  materials { g : graft }
  visit v "V" {
    together {
      lane one by surgeon { wet g }
      lane two by assistant { discard g }
      //                              ^ lanes_conflict
    }
  }
}
`);
});

test('a duty of the visit is due at the end of every visit', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit one "First" {
    place a
    //    ^ left_undone
  }
  visit two "Second" {
    remove a
  }
}
`);
});

test('a duty of the protocol is due at its end only', () => {
  check(`${KIT}
kind plate "plate" is material {
  states   boxed -> fixed -> removed
  must end boxed or removed by end of protocol source common_practice
}
action fix (plate p) { makes p fixed }
action unfix (plate p) { makes p removed }
protocol p "P" {
  materials { a : plate, b : plate }
  visit one "First" {
    fix a
    fix b
    //  ^ left_undone
  }
  visit two "Second" {
    unfix a
  }
}
`);
});

test('a duty before a pause is due there', () => {
  check(`${KIT}
pause sign_off "Sign off" { takes 1 min }
kind screen "screen" is pack {
  must end counted or removed before pause sign_off source common_practice
}
protocol p "P" {
  materials { a : screen, b : screen }
  visit v "V" {
    place a
    place b
    //    ^ left_undone
    remove a
    pause sign_off
    remove b
  }
}
`);
});

test('a thing out of the pack that never went in is told', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    remove a
    //     ^ impossible_move
  }
}
`);
});

test('what the first step of a visit needs may have been done in the visit before', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit one "First" {
    wet g
  }
  visit two "Second" {
    pack g
  }
}
`);
});

test('a visit after one that always stops begins as that one began', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit one "First" {
    wet g
    stop "Not today"
  }
  visit two "Second" {
    pack g
    //   ^ wrong_state
  }
}
`);
});

test('work after a stop is told once and not judged', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    stop "Not today"
    pack g
//  ^^^^^^ unreachable_step
    wet g
  }
}
`);
});

test('what was found in one visit says nothing of the next', () => {
  check(`// quiet: missing_head, not_judged
kind plate "plate" is material {
  states   boxed -> fixed -> removed
  must end boxed or removed by end of protocol source common_practice
}
action fix (plate p) {
  makes p fixed
  takes 1 min
}
action remove (plate p) {
  makes p removed
  takes 1 min
}
finding bleeding "Bleeding" { stopped "Stopped", brisk "Brisk" }
protocol p "P" {
  materials { m : plate }
  visit one "First" {
    decide bleeding {
      option stopped { }
      option brisk { fix m }
      //                 ^ left_undone: When bleeding is brisk in "First" and bleeding is stopped
    }
  }
  visit two "Second" {
    decide bleeding {
      option stopped { }
      option brisk { remove m }
      //                    ^ impossible_move: still boxed
    }
  }
}
`);
});

test('two lanes of one name are told', () => {
  check(`// quiet: missing_head, not_judged
protocol p "P" {
  visit v "V" {
    together {
      lane chairside { note "One" }
      lane chairside { note "Two" }
      //   ^^^^^^^^^ duplicate_name
    }
  }
}
`);
});
