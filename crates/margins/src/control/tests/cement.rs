//! Waiting on cement.

use super::*;
use rigwright_well::CementWait;

const SLUG: &str = "control/cement-wait";
const HOUR: f64 = 3_600.0;

fn with(change: impl FnOnce(&mut CementWait)) -> Answer {
    let mut fit = example("ostrick");
    let wait = &mut fit.well.sections[0].casing.as_mut().unwrap().cement_wait;
    *wait = CementWait {
        strengths: vec![(7.0 * HOUR, 50.0 * PSI), (11.0 * HOUR, 500.0 * PSI), (24.0 * HOUR, 1800.0 * PSI)],
        drill_out: Some(18.0 * HOUR),
        drill_out_strength: 500.0 * PSI,
        nipple_down_strength: 50.0 * PSI,
        ..CementWait::default()
    };
    change(wait);
    at_end(&fit, 0, SLUG)
}

#[test]
fn law_the_wait_flips_at_the_time_of_the_report() {
    let at = |hours: f64| with(|wait| wait.drill_out = Some(hours * HOUR));
    let found = *at(18.0).judged().unwrap();
    assert!((found.demand - 11.0 * HOUR).abs() < 1e-6 && found.limit.capacity == 18.0 * HOUR, "{found:?}");
    assert_eq!(at(11.01).verdict(), Verdict::Thin);
    assert_eq!(at(10.99).verdict(), Verdict::Short);
}

/// By hand: 7 h and 250 of 450 psi of 4 h.
#[test]
fn law_between_readings_strength_grows_evenly() {
    let found = with(|wait| wait.drill_out_strength = 300.0 * PSI);
    assert!((found.judged().unwrap().demand / HOUR - (7.0 + 4.0 * 250.0 / 450.0)).abs() < 1e-9);
}

#[test]
fn law_the_worst_step_governs() {
    let found = with(|wait| wait.nipple_down = Some(6.0 * HOUR));
    let judged = found.judged().unwrap();
    assert_eq!((judged.limit.name, found.verdict()), ("planned wait, preventers", Verdict::Short));
    assert!((judged.demand - 7.0 * HOUR).abs() < 1e-6);
}

#[test]
fn law_nothing_is_told_beyond_the_report() {
    let unknown = Answer::Missing(vec!["section[].casing.cement_strength"]);
    assert_eq!(with(|wait| wait.strengths.clear()), unknown);
    // 2,000 psi is not there by the end of the report: a longer wait may do, one within it does not.
    let strong = |hours: f64| {
        with(|wait| {
            wait.drill_out_strength = 2000.0 * PSI;
            wait.drill_out = Some(hours * HOUR);
        })
    };
    assert_eq!(strong(30.0), unknown);
    assert_eq!((strong(18.0).verdict(), strong(24.0).verdict()), (Verdict::Short, Verdict::Short));
}

#[test]
fn law_what_nobody_gave_is_named() {
    let missing = |entry| Answer::Missing(vec![entry]);
    assert_eq!(with(|wait| wait.drill_out = None), missing("section[].casing.wait_to_drill_out"));
    assert_eq!(with(|wait| wait.test = Some(20.0 * HOUR)), missing("section[].casing.test_strength"));
    let fit = example("ostrick");
    assert_eq!(at_end(&fit, 2, SLUG).verdict(), Verdict::DoesNotArise);
}
