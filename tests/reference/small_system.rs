//! One whole small system worked by hand on paper from the standards alone, step by step, beside its design.
//!
//! A hut with lamps, a fan and a radio, a sealed lead-acid battery that must
//! last two days, and one cable of 3.5 m to a panel. The paper knows nothing of
//! the program: each step says which publication it goes by, and its result
//! carries the next one.

use crate::catalogue::shipped;
use crate::check::{Source, by_hand, check, check_at_least, check_at_most, check_share};
use crate::program::design;
use loomwright::plan::read;

crate::tests![a_hut_from_loads_to_fuse];

const PAPER: Source = by_hand("a hut's system worked on paper, from loads to fuse");

const HUT: &str = r#"
format = 2
title = "Hut"
surroundings = { coldest_c = 10, hottest_c = 40, mean_c = 25, daily_swing_k = 0, yearly_swing_k = 0 }
service_battery = { chemistry = "agm", days_without_charge = 2, depth = 0.5, end_of_life = 0.8, design_margin = 1.1 }
charger = { kind = "none" }
cut_off = { standing_draw_a = 0 }
[[load]]
name = "lamps"
at = "panel"
current_a = 1.5
kind = "constant-current"
duty = { hours_a_day = 4 }
drop = "critical"
[[load]]
name = "fan"
at = "panel"
current_a = 0.5
kind = "constant-current"
duty = { hours_a_day = 10 }
drop = "critical"
[[load]]
name = "radio"
at = "panel"
current_a = 2
kind = "constant-current"
duty = { hours_a_day = 2 }
drop = "critical"
[[run]]
from = "service battery"
to = "panel"
length_m = 3.5
insulation = "pvc-105"
fuse_style = "blade-c"
"#;

fn a_hut_from_loads_to_fuse() {
    let catalogue = shipped();
    let read = read(HUT, &catalogue);
    assert!(read.problems.is_empty(), "{:?}", read.problems);
    let design = design(&read.plan, &catalogue);
    let run = &design.runs[0];
    let (size, fuse) = (run.size.as_ref().unwrap(), &run.fuses[0]);

    // Loads. 1.5 A x 4 h + 0.5 A x 10 h + 2 A x 2 h = 6 + 5 + 4 = 15 Ah a day; all together 4 A.
    check(PAPER, "Ah a day", 15.0, design.budget.charge.get(), 1e-9);
    check(PAPER, "A together", 4.0, run.current.get(), 1e-9);

    // Battery, the way of IEEE 1013 with the factors of IEEE 485: two days of 15 Ah from half of it, 1.19 at
    // 10 °C (50 °F), 1.25 for age, 1.10 to spare: 30 / 0.5 x 1.19 x 1.25 x 1.10 = 98.2 Ah. A block of 100 Ah
    // has it. Used then: 30 x 1.19 x 1.25 / 100 = 44.6 %.
    check(PAPER, "Ah needed", 98.2, design.battery.needed.get(), 0.1);
    check(PAPER, "Ah bought", 100.0, design.battery.bank.as_ref().unwrap().capacity.get(), 0.0);
    check(PAPER, "depth reached", 0.446, design.battery.depth_reached.get(), 0.001);

    // Cable. E-11 and ISO 10133 let a critical circuit lose 3 % of 12 V, 0.36 V: 90 mΩ at 4 A. Out and back are
    // 7 m. IEC 60228 class 5: 1.5 mm² has 13.3 Ω/km, 93 mΩ cold: too much. 2.5 mm² has 7.98 Ω/km, 55.9 mΩ cold,
    // in air of 40 °C (254.5 + 20) / 254.5 times that: 60.3 mΩ, 0.241 V. Lugs and fuse-link come on top.
    check(PAPER, "mm²", 2.5, size.area.get(), 0.0);
    check_at_least(PAPER, "V lost, copper alone", 0.241, size.drop.get());
    check_at_most(PAPER, "V lost", 0.36, size.drop.get());
    // Four lugs of 0.2 mΩ make 3 mV, a link that loses 0.15 V at 7.5 A makes 0.080 V (practice): 0.324 V in all.
    check(PAPER, "V lost on the way", 0.324, (run.settled.near - run.settled.far).get(), 0.01);

    // What it may carry. 7.98 Ω/km is 17.241 / 7.98 = 2.16 mm² of copper. 33 CFR 183.425 table 5, 105 °C: 14 AWG
    // (2.08 mm²) 35 A, 12 AWG (3.31 mm²) 45 A; a little above the former, 35.8 A. Factor for air of 40 °C, of
    // IEC 60364-5-52's law: √((105 - 40) / (105 - 30)) = 0.931. 33.3 A.
    check_share(PAPER, "ampacity, A", 33.3, size.ampacity.get(), 0.01);

    // Fuse. NEETS: 125 % of 4 A are 5 A; a link in air of 40 °C carries a little less than its rating, so more
    // than 5 A: 7.5 A is the next. Not more than the cable carries.
    check(PAPER, "fuse, A", 7.5, fuse.rating.unwrap().get(), 0.0);
    check_at_least(PAPER, "least rating, A", 5.0, fuse.at_least.get());
    check_at_most(PAPER, "least rating, A", 7.5, fuse.at_least.get());
    // 33 CFR 183.455: within 7 in, 0.178 m.
    check_at_most(PAPER, "fuse within, m", 0.178, fuse.within.get());

    // Short circuit. A deep-cycle block's data sheet says 4.9 mΩ; full, 12.8 V: 12.8 / 0.0049 = 2,600 A at least.
    // ISO 8820-3: a blade breaks 1,000 A. It must not stand there alone.
    check_at_least(PAPER, "A in a short circuit", 2600.0, fuse.prospective.get());
    check(PAPER, "A that the blade breaks", 1000.0, fuse.breaking.get(), 0.0);
    assert!(design.findings.iter().any(|f| f.kind.key() == "fuse-breaking"));
    // IEC 60364-5-54, k = 226 √ln(1 + 55 / 339.5) = 87.5 from 105 to 160 °C: (87.5 x 2.5)² = 47,900 A²s. At 13
    // times its rating the link opens within 0.1 s, at most (6 x 7.5)² x 0.1 = 200 A²s: the cable stands it.
    check_share(PAPER, "A²s that the cable stands", 47_900.0, fuse.cable_stands.get(), 0.02);
    check_at_most(PAPER, "A²s let through", 47_900.0, fuse.let_through.unwrap().get());

    // Cut-off at half charge. A field guide rests a battery at half at about 12.2 V; the mean current, 15 Ah in
    // 24 h, takes only millivolts of that.
    check(PAPER, "cut-off, V", 12.2, design.cut_off.cut.get(), 0.15);
}
