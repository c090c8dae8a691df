//! How soon a kick is shut in, the annuli behind casing, and gas above preventers on the sea bed.

use super::*;

const BARREL: f64 = 42.0 * GALLON;
const BED: f64 = 335.0;

/// 10 bbl before the alarm, 1.5 bbl/min for 3 min and until the slowest preventer is closed.
#[test]
fn law_influx_until_shut_in_comes_out_by_hand_and_flips_at_the_tolerance() {
    let mut fit = example("ostrick");
    let slowest = fit.rig.stack.iter().filter_map(|one| one.closing_time).fold(0.0, f64::max);
    let found = judged(&fit, 2, "control/detection");
    assert!((found.demand / BARREL - (10.0 + 1.5 * (3.0 + slowest / 60.0))).abs() < 1e-9, "{found:?}");
    let tolerance = judged(&fit, 2, "control/kick-tolerance");
    assert!((found.limit.capacity - tolerance.limit.capacity).abs() < 1e-9);
    let alarm = fit.well.kick.alarm_gain.unwrap() + found.left();
    fit.well.kick.alarm_gain = Some(alarm * (1.0 - 1e-9));
    assert_eq!(at_end(&fit, 2, "control/detection").verdict(), Verdict::Thin);
    fit.well.kick.alarm_gain = Some(alarm * (1.0 + 1e-9));
    assert_eq!(at_end(&fit, 2, "control/detection").verdict(), Verdict::Short);
}

#[test]
fn law_nobody_closes_in_no_time() {
    let mut fit = example("ostrick");
    fit.well.kick.reaction_time = None;
    fit.rig.stack[0].closing_time = None;
    let missing = Answer::Missing(vec!["kick.reaction_time", "rig.preventer[].closing_time"]);
    assert_eq!(at_end(&fit, 2, "control/detection"), missing);
    assert_eq!(at_end(&fit, 0, "control/detection").verdict(), Verdict::DoesNotArise);
}

const BEHIND: &str = "most pressure behind the last string";

/// 13 3/8 in 54.5 lb/ft K-55 bursts at 2,730 psi (API Bulletin 5C2, from memory; printed to 10 psi), of which the file allows 0.8; at
/// the top of cement at 2,000 ft mud of 10.2 ppg stands in the annulus against fresh water behind.
#[test]
fn published_burst_of_the_outer_string_bounds_the_annulus() {
    let fit = example("ostrick");
    let least = told(&at_end(&fit, 2, "control/annuli"), BEHIND) / PSI;
    let water = 1000.0 / PPG;
    let by_hand = 0.8 * 2730.0 - (10.2 - water) * 12.0 / 231.0 * 2000.0;
    assert!((least - by_hand).abs() <= 0.8 * 5.0, "{least} {by_hand}");
}

/// 9 5/8 in 47 lb/ft L-80 collapses at 4,750 psi (API Bulletin 5C2, from memory; printed to 10 psi); at the top of the annulus nothing
/// stands inside or outside.
#[test]
fn published_collapse_of_the_inner_string_bounds_the_annulus() {
    let mut fit = example("ostrick");
    let outer = fit.well.sections[0].casing.as_mut().unwrap();
    outer.yield_strength *= 10.0;
    // The mud of the annulus as inside: both ends of it bear the same.
    fit.well.sections[1].mud.weight = fit.well.sections[2].mud.weight;
    fit.well.sections[1].casing.as_mut().unwrap().cement_top = Some(500.0 * FOOT);
    let least = told(&at_end(&fit, 2, "control/annuli"), BEHIND) / PSI;
    let factor = fit.well.casing_factors.collapse;
    assert!((least - 4750.0 / factor).abs() <= 5.0 / factor, "{least}");
}

#[test]
fn law_rock_counts_where_cement_stops_below_the_shoe() {
    let mut fit = example("ostrick");
    let outer = fit.well.sections[0].casing.as_ref().unwrap();
    let (shoe, test) = (outer.shoe, outer.leak_off.unwrap().weight);
    let vertical = fit.well.path.vertical_depth_at(shoe);
    fit.well.sections[1].casing.as_mut().unwrap().cement_top = Some(shoe + 100.0);
    let least = told(&at_end(&fit, 2, "control/annuli"), BEHIND);
    let rock = (test - fit.well.sections[1].mud.weight) * STANDARD_GRAVITY * vertical;
    assert!(least <= rock + 1e-6, "{least} {rock}");
    fit.well.sections[0].casing.as_mut().unwrap().leak_off.as_mut().unwrap().weight = fit.well.sections[1].mud.weight + 10.0;
    let weak = told(&at_end(&fit, 2, "control/annuli"), BEHIND);
    assert!((weak - 10.0 * STANDARD_GRAVITY * vertical).abs() < 1e-6, "{weak}");
    fit.well.sections[1].casing.as_mut().unwrap().cement_top = None;
    assert_eq!(at_end(&fit, 2, "control/annuli"), Answer::Missing(vec!["section[].casing.cement_top"]));
    assert_eq!(at_end(&example("quellmere"), 3, "control/annuli").verdict(), Verdict::DoesNotArise);
}

/// What stands on the sea bed is the same before and after: choke, friction and mud against choke, rise and gas.
#[test]
fn law_the_choke_puts_on_what_gas_in_the_line_takes_off() {
    let fit = example("quellmere");
    let answer = at_end(&fit, 1, "control/choke-line-gas");
    let rise = told(&answer, "to put on the choke while gas fills the line");
    let friction = told(&answer, "of it friction that is gone");
    // 6 bar were measured with the mud in the hole.
    assert!((friction - 6e5).abs() < 1e-6);
    let gas = fit.well.sections[1].mud.weight - (rise - friction) / (STANDARD_GRAVITY * BED);
    // Methane of gravity 0.6 at 40 to 60 bar and 5 °C weighs between 30 and 60 kg/m³.
    assert!((30.0..60.0).contains(&gas), "{gas}");
    let time = told(&answer, "time until then at the slow rate");
    let strokes = told(&answer, "strokes until the line is full of gas");
    assert!((time - strokes / 0.5).abs() < 1e-9, "{time} {strokes}");
    // A line of twice the area takes twice the strokes.
    let mut wide = example("quellmere");
    wide.rig.riser.as_mut().unwrap().choke_line *= 2.0_f64.sqrt();
    let more = told(&at_end(&wide, 1, "control/choke-line-gas"), "strokes until the line is full of gas");
    assert!((more - 2.0 * strokes).abs() < 1e-9);
    assert_eq!(at_end(&example("ostrick"), 2, "control/choke-line-gas").verdict(), Verdict::DoesNotArise);
}

/// 0.35 m³ under the pressure of the kill mud, let down to the pressure of the air at the same heat: Boyle over a factor z of 0.85 to
/// 0.92 for such a gas at some 45 bar.
#[test]
fn law_trapped_gas_grows_as_boyle_and_its_z_say() {
    let mut fit = example("quellmere");
    let answer = at_end(&fit, 2, "control/trapped-gas");
    let (pressure, volume) = (told(&answer, "pressure of the trapped gas"), told(&answer, "its volume at surface"));
    let boyle = 0.35 * (pressure + 101_325.0) / 101_325.0;
    assert!((boyle / 0.92..boyle / 0.85).contains(&volume), "{volume} {boyle}");
    let (height, lost) =
        (told(&answer, "height of riser that it then fills"), told(&answer, "pressure that the well then lacks"));
    assert!((lost / height - pressure / BED).abs() < 1e-6);
    fit.rig.riser.as_mut().unwrap().trapped_volume = Some(0.175);
    assert!((2.0 * told(&at_end(&fit, 2, "control/trapped-gas"), "its volume at surface") - volume).abs() < 1e-9);
    // More than the riser holds pushes out all of it, and no more.
    fit.rig.riser.as_mut().unwrap().trapped_volume = Some(20.0);
    let all = told(&at_end(&fit, 2, "control/trapped-gas"), "height of riser that it then fills");
    assert!((all - BED).abs() < 1e-9);
    fit.rig.riser.as_mut().unwrap().trapped_volume = None;
    assert_eq!(at_end(&fit, 2, "control/trapped-gas"), Answer::Missing(vec!["rig.riser.trapped_volume"]));
}

/// A kick of no volume, "zero gain": what it leaves at a depth is MW + (D/Dᵢ) intensity (Ghalambor and Guo, well-control course notes,
/// 2005, eq. 1). The seat is where the rock just bears that, or the mud with its margin.
#[test]
fn published_zero_gain_sets_the_seat() {
    let mut fit = example("ostrick");
    fit.well.kick.volume = Some(1e-5);
    for (weight, intensity, by_kick) in [(14.0 * PPG, 0.0, false), (11.5 * PPG, 1.0 * PPG, true)] {
        fit.well.sections[2].mud.weight = weight;
        fit.well.kick.intensity = Some(intensity);
        let found = judged(&fit, 2, "control/seat");
        let depth = fit.well.path.vertical_depth_at(found.demand);
        let bottom = fit.well.path.vertical_depth_at(fit.well.sections[2].bottom);
        let mud = fit.well.sections[2].mud.weight;
        let bears = |depth: f64| fit.well.formation_at(depth).fracture_at(depth).unwrap() / (STANDARD_GRAVITY * depth);
        let asked = |depth: f64| (mud + bottom / depth * intensity).max(mud + fit.well.margins.fracture);
        assert_eq!(found.limit.name.contains("kick"), by_kick, "{found:?}");
        assert!(bears(depth) >= asked(depth) * (1.0 - 1e-6), "{found:?}");
        assert!(bears(depth - 0.5) < asked(depth - 0.5), "{found:?}");
    }
}

#[test]
fn law_a_larger_kick_asks_for_a_deeper_seat_and_the_verdict_flips_at_the_shoe() {
    let mut fit = example("ostrick");
    let deep = |fit: &Fit| judged(fit, 2, "control/seat").demand;
    fit.well.kick.intensity = Some(1.0 * PPG);
    let small = deep(&fit);
    fit.well.kick.volume = fit.well.kick.volume.map(|volume| 3.0 * volume);
    let large = deep(&fit);
    assert!(large > small, "{small} {large}");
    assert_eq!(at_end(&fit, 0, "control/seat").verdict(), Verdict::DoesNotArise);
    fit.well.kick.volume = None;
    assert_eq!(at_end(&fit, 2, "control/seat"), Answer::Missing(vec!["kick.volume"]));
    // A mud that the rock just above the bottom does not bear leaves no seat above it.
    let mut fit = example("ostrick");
    fit.well.sections[2].mud.weight = 30.0 * PPG;
    let found = judged(&fit, 2, "control/seat");
    assert!((found.demand - fit.well.sections[2].bottom).abs() < 0.02 && found.room() < 0.0, "{found:?}");
}

/// 15.6 ppg of slurry over 5,190 ft against 10.2 ppg of mud, by 12/231 psi/ft for each ppg; the hole is upright.
#[test]
fn law_the_plug_is_bumped_above_what_the_slurry_pushes_back_with() {
    let mut fit = example("ostrick");
    let found = judged(&fit, 1, "control/plug-bump");
    let by_hand = (15.6 - 10.2) * 12.0 / 231.0 * (7190.0 - 2000.0);
    assert!((found.demand / PSI - by_hand).abs() < 0.1, "{} {by_hand}", found.demand / PSI);
    let casing = fit.well.sections[1].casing.as_mut().unwrap();
    casing.bump_pressure = Some(found.demand.next_down());
    assert_eq!(at_end(&fit, 1, "control/plug-bump").verdict(), Verdict::Short);
    fit.well.sections[1].casing.as_mut().unwrap().cement_weight = None;
    assert_eq!(at_end(&fit, 1, "control/plug-bump"), Answer::Missing(vec!["section[].casing.cement_weight"]));
    assert_eq!(at_end(&example("quellmere"), 0, "control/plug-bump").verdict(), Verdict::DoesNotArise);
}
