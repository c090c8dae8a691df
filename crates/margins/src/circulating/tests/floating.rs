//! The floating example: the sea above the sea bed, the riser with its booster, the heave.

use super::*;
use rigwright_physics::STANDARD_GRAVITY;
use rigwright_physics::circulating::surge::PEAK_FACTOR;

const BED: f64 = 25.0 + 310.0;

/// By hand: 310 m of sea of 1.025 sg and 445 m of mud of 1.10 sg.
#[test]
fn law_before_the_riser_the_sea_stands_above_the_mud() {
    let fit = example("quellmere.toml");
    let still = flow(&fit, 0, Operation::Connection);
    let by_hand = STANDARD_GRAVITY * (1025.0 * 310.0 + 1100.0 * (780.0 - BED));
    assert!((still.bottom_pressure - by_hand).abs() < 1.0, "{} {by_hand}", still.bottom_pressure);
    // Counted from the sea bed the mud weighs what it weighs.
    let found = judged(&ask(&fit, "circulating/overbalance", 0, Operation::Connection));
    assert!((found.limit.capacity - 1100.0).abs() < 1e-6, "{found:?}");
}

/// With the riser on, mud stands up to the rig, and the annulus begins with the riser.
#[test]
fn law_with_the_riser_the_mud_stands_up_to_the_rig() {
    let fit = example("quellmere.toml");
    let still = flow(&fit, 1, Operation::Connection);
    assert!((still.bottom_pressure - STANDARD_GRAVITY * 1120.0 * 1600.0).abs() < 1.0);
    let riser = still.pieces.first().unwrap().annulus;
    assert!(riser.riser && riser.top.abs() < 1e-9 && (riser.bottom - BED).abs() < 1e-9);
    assert!((riser.hole_diameter - 19.25 * 0.0254).abs() < 1e-9);
    assert!(still.pieces[1..].iter().all(|piece| !piece.annulus.riser));
}

/// The booster speeds up the mud in the riser alone, and what is pumped comes back.
#[test]
fn law_the_booster_works_in_the_riser_alone() {
    let mut fit = example("quellmere.toml");
    let with = flow(&fit, 1, Operation::Drilling);
    let back = judged(&ask(&fit, "circulating/return-line", 1, Operation::Drilling)).demand;
    let drilling = fit.well.sections[1].drilling;
    assert!((back - (drilling.flow_rate + drilling.booster)).abs() < 1e-12);
    fit.well.sections[1].drilling.booster = 0.0;
    let without = flow(&fit, 1, Operation::Drilling);
    assert!(with.pieces[0].gradient > without.pieces[0].gradient);
    assert!(with.pieces[0].cuttings < without.pieces[0].cuttings);
    for (a, b) in with.pieces[1..].iter().zip(&without.pieces[1..]) {
        assert!((a.gradient - b.gradient).abs() < 1e-9 && (a.cuttings - b.cuttings).abs() < 1e-12);
    }
    assert!(matches!(ask(&fit, "circulating/booster", 1, Operation::Drilling), Answer::DoesNotArise(_)));
    fit.well.sections[1].drilling.booster = drilling.booster;
    fit.rig.riser.as_mut().unwrap().booster_line = None;
    assert_eq!(ask(&fit, "circulating/booster", 1, Operation::Drilling), Answer::Missing(vec!["rig.riser.booster_line"]));
}

/// Bottoms up by hand: the hole at the flow of the string, the riser at that and the booster's.
#[test]
fn law_bottoms_up_is_faster_with_a_booster() {
    let fit = example("quellmere.toml");
    let drilling = fit.well.sections[1].drilling;
    let lag = ask(&fit, "circulating/lag", 1, Operation::Drilling);
    let riser = std::f64::consts::FRAC_PI_4 * (19.25f64.powi(2) - 5.5f64.powi(2)) * 0.0254 * 0.0254 * BED;
    let hole = told(&lag, "volume of the annulus") - riser;
    let by_hand = hole / drilling.flow_rate + riser / (drilling.flow_rate + drilling.booster);
    assert!((told(&lag, "time bottoms up") / by_hand - 1.0).abs() < 1e-9);
}

/// A heave of height H and period T moves the string at most at π H/T; a trip whose peak is that fast costs the same.
#[test]
fn law_heave_costs_what_a_trip_of_its_peak_speed_costs() {
    let mut fit = example("quellmere.toml");
    let heave = fit.well.sea.unwrap().heave.unwrap();
    let speed = std::f64::consts::PI * heave.height / heave.period / PEAK_FACTOR;
    fit.well.sections[3].tripping.running_speed = speed;
    fit.well.sections[3].tripping.pulling_speed = speed;
    let bottom = fit.well.sections[3].bottom;
    let connection = |slug| judged(&at(&fit, slug, (3, Operation::Connection, bottom, bottom)));
    let surge = judged(&at(&fit, "circulating/fracture", (3, Operation::RunningIn, bottom, bottom)));
    let swab = judged(&at(&fit, "circulating/overbalance", (3, Operation::PullingOut, bottom, bottom)));
    assert!((connection("circulating/heave-surge").demand - surge.demand).abs() < 1e-6);
    assert!((connection("circulating/heave-swab").limit.capacity - swab.limit.capacity).abs() < 1e-6);
    fit.well.sea.as_mut().unwrap().heave = None;
    let unknown = at(&fit, "circulating/heave-surge", (3, Operation::Connection, bottom, bottom));
    assert_eq!(unknown, Answer::Missing(vec!["sea.heave"]));
    let land = ask(&example("ostrick.toml"), "circulating/heave-surge", 2, Operation::Connection);
    assert!(matches!(land, Answer::DoesNotArise(_)));
}
