//! Shallow gas on the diverter.

use super::*;

const SLUG: &str = "control/diverter";

/// As the example is given; the part that a test turns is changed on top.
fn diverted() -> Fit {
    example("ostrick")
}

fn with_rate(fit: &Fit, rate: f64) -> Judged {
    let mut fit = fit.clone();
    fit.well.sections[0].shallow_gas.as_mut().unwrap().rate = Some(rate);
    judged(&fit, 0, SLUG)
}

#[test]
fn law_only_a_section_on_the_diverter_is_asked() {
    let verdict = |name: &str, section: usize| at_end(&example(name), section, SLUG).verdict();
    assert_eq!(verdict("ostrick", 1), Verdict::DoesNotArise);
    // Returns go to the sea bed.
    assert_eq!(verdict("quellmere", 0), Verdict::DoesNotArise);
    let mut fit = diverted();
    // The first casing may be too weak to shut in on.
    fit.well.sections[1].shallow_gas = fit.well.sections[0].shallow_gas;
    assert!(at_end(&fit, 1, SLUG).judged().is_some());
}

#[test]
fn law_what_nobody_gave_is_named() {
    let mut fit = diverted();
    fit.rig.diverter.as_mut().unwrap().line_fittings = None;
    fit.well.sections[0].shallow_gas = None;
    let missing =
        Answer::Missing(vec!["section[].shallow_gas.rate", "section[].shallow_gas.conductor", "rig.diverter.line_fittings"]);
    assert_eq!(at_end(&fit, 0, SLUG), missing);
    let mut fit = diverted();
    fit.well.formations.iter_mut().for_each(|layer| layer.fracture = None);
    assert_eq!(at_end(&fit, 0, SLUG), Answer::Missing(vec!["formation[].fracture"]));
}

#[test]
fn law_more_gas_and_a_narrower_line_ask_for_more() {
    let fit = diverted();
    let rate = fit.well.sections[0].shallow_gas.unwrap().rate.unwrap();
    let demands: Vec<f64> = [0.25, 0.5, 1.0, 2.0, 4.0, 8.0].map(|share| with_rate(&fit, share * rate).demand).to_vec();
    assert!(demands.windows(2).all(|pair| pair[0] < pair[1]), "{demands:?}");
    let mut last = 0.0;
    for inches in [14.0, 12.0, 10.0, 8.0, 6.0] {
        let mut fit = fit.clone();
        fit.rig.diverter.as_mut().unwrap().line_inside = Some(inches * 0.0254);
        let demand = judged(&fit, 0, SLUG).demand;
        assert!(demand > last, "{inches} {demand} {last}");
        last = demand;
    }
}

/// At eight times the rate the end is choked: then the absolute pressure before the line grows in proportion to the rate.
#[test]
fn law_a_choked_line_goes_by_the_rate() {
    let fit = diverted();
    let rate = 8.0 * fit.well.sections[0].shallow_gas.unwrap().rate.unwrap();
    let absolute = |rate: f64| with_rate(&fit, rate).demand + rigwright_physics::STANDARD_ATMOSPHERE;
    let grows = absolute(2.0 * rate) / absolute(rate);
    // Friction falls a little with the Reynolds number.
    assert!((1.98..2.0001).contains(&grows), "{grows}");
}

/// The shoe feels what stands at the wellhead, the weight of the gas from there down, and its friction.
#[test]
fn law_the_shoe_bears_its_strength_less_more_than_still_gas() {
    let fit = diverted();
    let gas = fit.well.sections[0].shallow_gas.unwrap();
    let found = with_rate(&fit, 8.0 * gas.rate.unwrap());
    let shoe = gas.conductor.unwrap();
    assert_eq!((found.place, found.limit.name), (crate::Place::Depth(shoe), "strength of the shoe above the gas"));
    let rock = point(&fit, shoe).unwrap();
    let adds = rock.fracture.unwrap() - found.limit.capacity;
    // A gas of gravity 0.55, as warm as 60 degC, at the pressure of the wellhead.
    let absolute = found.demand + rigwright_physics::STANDARD_ATMOSPHERE;
    let still = absolute * 0.55 * 0.028_96 / (8.314_462_618 * 333.15) * STANDARD_GRAVITY * rock.vertical_depth;
    assert!(adds > still && adds < found.demand, "{adds} {still}");
}

#[test]
fn law_the_limit_that_is_nearer_governs_and_flips() {
    let mut fit = diverted();
    let by_shoe = judged(&fit, 0, SLUG);
    assert_eq!(by_shoe.limit.name, "strength of the shoe above the gas");
    fit.rig.diverter.as_mut().unwrap().rating = Some(by_shoe.demand);
    let by_rating = at_end(&fit, 0, SLUG);
    assert_eq!((by_rating.judged().unwrap().limit.name, by_rating.verdict()), ("rating of the diverter", Verdict::Thin));
    fit.rig.diverter.as_mut().unwrap().rating = Some(by_shoe.demand.next_down());
    assert_eq!(at_end(&fit, 0, SLUG).verdict(), Verdict::Short);
}
