/** How old a state is when a step begins: always, sometimes or never within its limit. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged, time_outside_action
finding bleeding "Bleeding" { stopped, brisk }
kind graft "graft" is material {
  soak   : time range
  states dry -> wetted -> packed
}
kind cement "cement" is material {
  states mixed -> placed
  mixed  lasts at most 4 min, then set source common_practice
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for g.soak because "Too soon it floats out, too late it crumbles" source common_practice
  makes g packed
  takes 5 min
}
action place (cement c) {
  needs c mixed
  makes c placed
  takes 1 min
}
action quick (place p) { takes 2..4 min }
action slow (place p) { takes 15..30 min }
action vague (place p)
`;

test('enough time in between holds', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    slow site
    pack g
  }
}
`);
});

test('too little whatever happens is an error', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    quick site
    pack g
    //   ^ clock_broken (error): for at most 4 min
  }
}
`);
});

test('too little when the work is quick is a warning with that run', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    quick site
    quick site takes 4..9 min
    pack g
    //   ^ clock_broken (warning): "quick site" takes 2 min
  }
}
`);
});

test('too long whatever happens is an error', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    slow site takes 70..80 min
    pack g
    //   ^ clock_broken (error)
  }
}
`);
});

test('too long when the work is slow is a warning with that run', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..45 min } }
  visit v "V" {
    wet g
    slow site
    quick site
    slow site
    pack g
    //   ^ clock_broken (warning): takes 30 min
  }
}
`);
});

test('exactly at either end of the range holds', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min }, h : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    quick site takes 10 min
    pack g
    wet h
    quick site takes 60 min
    pack h
  }
}
`);
});

test('the wait that is offered mends it', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    quick site
    wait until g is wetted for 10 min
    pack g
  }
}
`);
});

test('a wait shorter than the limit does not', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    quick site
    wait until g is wetted for 5 min
    pack g
    //   ^ clock_broken (error)
  }
}
`);
});

test('a plain wait counts as what it says', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    wait 10 min
    pack g
  }
}
`);
});

test('over a decision the shorter option decides whether it is too soon', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    decide bleeding "Look" {
      option stopped { }
      option brisk { slow site }
    }
    pack g
    //   ^ clock_broken (warning)
  }
}
`);
});

test('over a decision that takes long enough itself it holds', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    decide bleeding "Look" takes 10..12 min {
      option stopped { }
      option brisk { quick site }
    }
    pack g
  }
}
`);
});

test('a state that began on one option is as old as that option makes it', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    decide bleeding "Look" {
      option stopped {
        wet g
        slow site
      }
      option brisk { wet g }
    }
    pack g
    //   ^ clock_broken (error): When bleeding is brisk
  }
}
`);
});

test('a repetition may take once or as often as it may be done', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min }, h : graft { soak 2..10 min } }
  visit v "V" {
    wet g
    repeat until "Clean" at most 3 times { quick site }
    pack g
    //   ^ clock_broken (warning)
    wet h
    repeat until "Clean" at most 3 times { quick site }
    pack h
    //   ^ clock_broken (warning)
  }
}
`);
});

test('a repetition without a limit may last for ever', () => {
  check(`
// quiet: missing_head, not_judged, repeat_without_limit
kind graft "graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for 1..60 min
  makes g packed
}
action quick (place p) { takes 2..4 min }
protocol p "P" {
  given { site : place }
  materials { g : graft }
  visit v "V" {
    wet g
    repeat until "Clean" { quick site }
    pack g
    //   ^ time_not_stated (advice)
  }
}
`);
});

test('lanes side by side last as long as the longest', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    together {
      lane one { quick site }
      lane two { slow site }
    }
    pack g
  }
}
`);
});

test('a state that begins in one lane is as old as the rest of the lanes makes it', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place, other : place }
  materials { g : graft { soak 10..60 min }, h : graft { soak 10..60 min } }
  visit v "V" {
    together {
      lane one { slow site }
      lane two { wet g }
    }
    pack g
    together {
      lane one { slow site }
      lane two {
        slow other
        wet h
      }
    }
    pack h
    //   ^ clock_broken (warning)
  }
}
`);
});

test('a step without a time leaves it open, and is named', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    slow site
    vague site
    pack g
    //   ^ time_not_stated (advice): nothing says how long "vague site" takes
  }
}
`);
});

test('a step without a time does not hide that it is too late already', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    slow site takes 70..80 min
    vague site
    pack g
    //   ^ clock_broken (error)
  }
}
`);
});

test('a step without a time cannot make too little enough', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10 min } }
  visit v "V" {
    wet g
    quick site
    vague site
    pack g
    //   ^ clock_broken (warning)
  }
}
`);
});

test('a limit that nobody stated is told, not passed', () => {
  check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    wet g
    pack g
    //   ^ undecided (warning)
  }
}
`);
});

test('a state that lasts only so long runs out', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { c : cement }
  visit v "V" {
    quick site
    quick site takes 1 min
    place c
    //    ^ clock_broken (warning): then it is set
  }
}
`);
});

test('a state that lasts long enough holds', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { c : cement }
  visit v "V" {
    quick site
    place c
  }
}
`);
});

test('a clock that runs on from one visit to the next', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min }, h : graft { soak at least 3 d } }
  visit one "First" {
    wet g
    wet h
  }
  wait 5 d
  visit two "Second" {
    pack g
    //   ^ clock_broken (error)
    pack h
  }
}
`);
});

test('visits with nothing said about the time between them', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { h : graft { soak at least 3 d } }
  visit one "First" {
    wet h
  }
  visit two "Second" {
    pack h
    //   ^ time_not_stated (warning): nothing says how long to wait between the visits
  }
}
`);
});

test('what is done otherwise may take no time at all', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    verify "Clean" otherwise { slow site }
    pack g
    //   ^ clock_broken (warning)
  }
}
`);
});

test('a complication may take no time at all', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    complication "It bleeds" { slow site }
    pack g
    //   ^ clock_broken (warning)
  }
}
`);
});

test('a pause takes its time', () => {
  check(`${KIT}
pause count_in "Count" { takes 10..12 min }
protocol p "P" {
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    pause count_in
    pack g
  }
}
`);
});

test('a clock into an option counts the work before it and the work in it', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    quick site takes 5 min
    decide bleeding "Look" {
      option stopped {
        quick site takes 5 min
        pack g
      }
      option brisk { stop "Refer" }
    }
  }
}
`);
});

test('a step in a later round is later by the rounds before it', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { c : cement }
  visit v "V" {
    repeat until "Held" at most 2 times {
      quick site takes 3 min
      verify "Held" otherwise {
        place c
        //    ^ clock_broken (warning)
        stop "Done"
      }
    }
  }
}
`);
});

test('what a decision itself takes comes before what it leads to', () => {
  check(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..12 min }, h : graft { soak 10..12 min } }
  visit v "V" {
    wet g
    wet h
    decide bleeding "Look" takes 10..11 min {
      option stopped { pack h }
      option brisk {
        pack g
        quick site
        pack h
        //   ^ clock_broken (error)
      }
    }
  }
}
`);
});
