//! The floating example: preventers on the sea bed, choke line, riser margin.

use super::*;
use crate::fields::influx::surface_pressure;

const BED: f64 = 25.0 + 310.0;
const SEA: f64 = 1025.0;

/// By hand: 310 m of sea of 1.025 sg and 2,457.148 m of mud of 1.34 sg below it, over 2,792.148 m from the rotary table.
#[test]
fn law_riser_margin_comes_out_by_hand() {
    let mut fit = example("quellmere");
    let found = judged(&fit, 2, "control/riser-margin");
    let bottom = fit.well.path.vertical_depth_at(2820.0);
    let by_hand = (SEA * 310.0 + 1340.0 * (bottom - BED)) / bottom;
    assert!((found.limit.capacity - by_hand).abs() < 1e-6, "{found:?} {by_hand}");
    // The mud that just balances the formation without riser: by the formula of the trade, turned round.
    let balance = (found.demand * bottom - SEA * 310.0) / (bottom - BED);
    fit.well.sections[2].mud.weight = balance;
    assert!(judged(&fit, 2, "control/riser-margin").room().abs() < 1e-6);
    fit.well.sections[2].mud.weight = balance.next_down() - 1e-6;
    assert_eq!(at_end(&fit, 2, "control/riser-margin").verdict(), Verdict::Short);
    assert_eq!(at_end(&fit, 0, "control/riser-margin").verdict(), Verdict::DoesNotArise);
    assert_eq!(at_end(&example("ostrick"), 2, "control/riser-margin").verdict(), Verdict::DoesNotArise);
}

/// Shut in, gas meets the choke line instead of the riser.
#[test]
fn law_the_choke_line_takes_the_place_of_the_riser() {
    let fit = example("quellmere");
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::situation(&fit, 1, Operation::ShutIn, 1600.0, 1600.0));
    let annulus = scene.kick_annulus().unwrap();
    let below: f64 = scene.annuli().iter().filter(|piece| !piece.riser).map(|piece| piece.capacity() * piece.length()).sum();
    let line = std::f64::consts::FRAC_PI_4 * (3.0f64 * 0.0254).powi(2) * BED;
    assert!((annulus.volume() - below - line).abs() < 1e-9);
    assert!((annulus.volume_below(BED) - below).abs() < 1e-9);
}

/// What the preventers bear is the gas at the sea bed less the sea outside: more than at surface by the gas in between, less by the sea.
#[test]
fn law_preventers_on_the_sea_bed_feel_the_sea_outside() {
    let fit = example("quellmere");
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 3));
    let found = surface_pressure(&scene, &mut Off).unwrap();
    let gas = found.at_stack + SEA * STANDARD_GRAVITY * 310.0 - found.pressure;
    let density = gas / (STANDARD_GRAVITY * BED);
    // Methane of gravity 0.6 at 400 bar and 5 °C: between 200 and 330 kg/m³.
    assert!((200.0..330.0).contains(&density), "{density}");
    assert!((judged(&fit, 3, "control/stack-rating").demand - found.at_stack).abs() < 1e-6);
    assert!((judged(&fit, 3, "control/manifold-rating").demand - found.pressure).abs() < 1e-6);
    assert_eq!(judged(&fit, 3, "control/stack-rating").place.depth(), Some(BED));
}

/// A measured loss counts before the flow curve, in proportion to mud weight: 6 bar with 1.12 sg are 6 x 1.16/1.12 with kill mud.
#[test]
fn law_a_measured_loss_in_the_choke_line_counts() {
    let mut fit = example("quellmere");
    let found = judged(&fit, 1, "control/choke-line");
    let depth = found.place.depth().unwrap();
    let by_hand = 1160.0 + 6e5 * 1160.0 / 1120.0 / (STANDARD_GRAVITY * depth);
    assert!((found.demand - by_hand).abs() < 1e-6, "{found:?} {by_hand}");
    for rate in &mut fit.well.sections[1].slow_rates {
        rate.choke_line_loss = None;
    }
    let reckoned = judged(&fit, 1, "control/choke-line").demand;
    assert!(reckoned > 1160.0);
    // A narrower line costs more.
    fit.rig.riser.as_mut().unwrap().choke_line *= 0.8;
    assert!(judged(&fit, 1, "control/choke-line").demand > reckoned);
    fit.well.sections[1].slow_rates.clear();
    assert_eq!(at_end(&fit, 1, "control/choke-line"), Answer::Missing(vec!["section[].slow_rate[]"]));
    assert_eq!(at_end(&fit, 0, "control/choke-line").verdict(), Verdict::DoesNotArise);
}
