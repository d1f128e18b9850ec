//! The panels' own cable and its device.

use crate::case::{design_of, found_with, severities, tell_apart};
use loomwright::engine::{FindingKind as Kind, Severity};

/// One panel of 9 A shorted, 5 m from its controller, and changes of it.
fn solar(more: &str) -> String {
    format!("solar = {{ array_w = 150, sun_hours = 4, panel_short_a = 9, cable_m = 5{more} }}")
}

/// NFPA 70, 690.8 and 690.9, as worked in most handbooks of the trade (from memory): 9 A × 1.25 × 1.25 = 14.06 A, so a
/// device of 15 A, and a conductor of which the table says no less than 14.06 A.
#[test]
fn the_panels_cable_bears_full_sun() {
    let chosen = design_of(&solar("")).charger.array_cable.unwrap();
    assert_eq!(chosen.device.unwrap().get(), 15.0);
    assert!(chosen.plain.get() >= 14.06 && chosen.carries.get() >= 15.0, "{chosen:?}");
    // 150 W at 18 V are 8.33 A. IEC 60228 has 4.95 Ω/km for 4 mm² plain; at 105 °C that is 1.334 of it: 5 m there and
    // back lose 0.550 V, worked on paper.
    let four = design_of(&solar(", cable_size = \"4 mm²\"")).charger.array_cable.unwrap();
    assert!((four.drop.get() - 0.550).abs() < 0.01, "{four:?}");
    assert!(chosen.lost.get() <= 0.03, "{chosen:?}");
    assert!(design_of("solar = { array_w = 150, sun_hours = 4 }").charger.array_cable.is_none());
}

#[test]
fn a_thin_one_a_small_device_and_a_long_way_are_told() {
    tell_apart(Kind::ArrayCable, &solar(", cable_size = \"0.75 mm²\""), &solar(", cable_size = \"6 mm²\""));
    // A device larger than the cable carries does not guard it.
    tell_apart(Kind::ArrayCable, &solar(", cable_size = \"2.5 mm²\", device_a = 60"), &solar(", device_a = 60"));
    tell_apart(Kind::ArrayDevice, &solar(", device_a = 10"), &solar(", device_a = 15"));
    assert_eq!(severities(&solar(", device_a = 10"), Kind::ArrayDevice), [Severity::Caution]);
    assert_eq!(severities(&solar(", strings = 20"), Kind::ArrayDevice), [Severity::Stop]);
    tell_apart(Kind::ArrayDrop, &solar(", cable_size = \"2.5 mm²\""), &solar(", cable_size = \"10 mm²\""));
    let told = &found_with(&solar(", cable_size = \"2.5 mm²\""), Kind::ArrayDrop)[0];
    assert!(told.remedies.iter().any(|r| !r.edits.is_empty()), "{told:?}");
}
