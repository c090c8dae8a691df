//! Parts of the rig on the example wells: figures that can be checked by hand, and verdicts that flip at their limits.

use crate::*;
use rigwright_physics::{Line, Off, Working};
use rigwright_well::{Fit, Operation};

const POUND_FORCE: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;
const KLBF: f64 = 1000.0 * POUND_FORCE;
const FOOT: f64 = 0.3048;

/// The answer with the bit or shoe as deep as the section lets it.
fn ask(fit: &Fit, slug: &str, operation: Operation) -> Answer {
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, situation(fit, operation));
    (question(slug).unwrap().ask)(&scene, &mut Off)
}

fn situation(fit: &Fit, operation: Operation) -> rigwright_well::Situation {
    let section = &fit.well.sections[2];
    let deepest = match (&*section.casing, operation) {
        (Some(casing), Operation::RunningCasing) => casing.shoe,
        _ => section.bottom,
    };
    sweep::situation(fit, 2, operation, section.bottom, deepest)
}

fn judged(answer: &Answer) -> Judged {
    *answer.judged().unwrap_or_else(|| panic!("{answer:?}"))
}

/// The verdict flips where the rating that a closure sets meets the demand.
fn flips(slug: &str, operation: Operation, set: fn(&mut Fit, f64)) {
    let mut fit = crate::example("ostrick");
    set(&mut fit, 1e9);
    let demand = judged(&ask(&fit, slug, operation)).demand;
    assert!(demand > 0.0, "{slug}");
    for (edge, verdict) in [(1.0 - 1e-9, Verdict::Short), (1.0 + 1e-9, Verdict::Thin), (2.0, Verdict::Holds)] {
        set(&mut fit, demand * edge);
        assert_eq!(ask(&fit, slug, operation).verdict(), verdict, "{slug} {edge}");
    }
}

#[test]
fn law_verdicts_flip_at_the_rating_of_each_part() {
    let pulling = Operation::PullingOut;
    flips("hoisting/dead-line-anchor", pulling, |fit, rating| fit.rig.line.anchor_rating = Some(rating));
    flips("hoisting/setback-with-hook-load", pulling, |fit, rating| fit.rig.mast.rotary_load = Some(rating));
    flips("hoisting/brake", Operation::RunningCasing, |fit, rating| *fit.rig.drawworks.brake_power = Some(rating));
    flips("hoisting/worst-leg", pulling, |fit, rating| {
        fit.rig.crown.weight = Some(9.0 * KLBF);
        fit.rig.mast.leg_rating = Some(rating);
    });
    flips("hoisting/brake-torque", pulling, |fit, rating| {
        (fit.rig.drawworks.drum, fit.rig.drawworks.wraps) = (Some(0.7112), Some(38.0));
        *fit.rig.drawworks.brake_torque = Some(rating);
    });
    flips("hoisting/slips", pulling, |fit, rating| {
        (fit.rig.slips.length, fit.rig.slips.rating) = (Some(0.4064), Some(rating));
    });
}

#[test]
fn law_what_is_not_given_is_asked_for() {
    let mut fit = crate::example("ostrick");
    fit.rig.line.anchor_rating = None;
    fit.rig.slips.length = None;
    fit.rig.slips.rating = None;
    fit.rig.mast.leg_rating = None;
    *fit.rig.drawworks.brake_torque = None;
    fit.rig.drawworks.drum = None;
    fit.rig.drawworks.wraps = None;
    let missing = |slug: &str| ask(&fit, slug, Operation::PullingOut);
    assert_eq!(missing("hoisting/dead-line-anchor"), Answer::Missing(vec!["rig.line.anchor_rating"]));
    assert_eq!(missing("hoisting/slips"), Answer::Missing(vec!["rig.slips.rating", "rig.slips.length"]));
    assert!(matches!(missing("hoisting/worst-leg"), Answer::DoesNotArise(_)));
    let all = vec!["rig.drawworks.brake_torque", "rig.drawworks.drum", "rig.drawworks.wraps"];
    assert_eq!(missing("hoisting/brake-torque"), Answer::Missing(all));
}

/// Lowering on 10 lines with a ratio of 1.04 the dead line pulls 0.118549 of the hook load and the fast line 0.080087
/// (tension marched from sheave to sheave, by an independent script).
#[test]
fn agrees_march_over_the_sheaves() {
    let mut fit = crate::example("ostrick");
    fit.rig.line.anchor_rating = Some(1e9);
    *fit.rig.drawworks.brake_power = Some(1e9);
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, situation(&fit, Operation::RunningCasing));
    // The hole is vertical: casing weighs the same up and down.
    let hook = scene.drag(&mut Off).surface_tension + fit.rig.block.weight + fit.rig.drive.weight;
    let anchor = judged(&ask(&fit, "hoisting/dead-line-anchor", Operation::RunningCasing)).demand;
    assert!((anchor / hook - 0.118549).abs() < 0.000_000_5, "{}", anchor / hook);
    let power = judged(&ask(&fit, "hoisting/brake", Operation::RunningCasing)).demand;
    let speed = fit.well.sections[2].casing.as_ref().unwrap().running_speed;
    assert!((power / (hook * 0.80087 * speed) - 1.0).abs() < 1e-5);
}

/// Reinhold & Spiri for premium pipe of 4.855 in in slips of 16 in with a factor of 4: √(1 + x + x²) with
/// x = 4.855 x 4.0/32 = 0.607, so 1.405; 560,800/(1.405 x 1.1) = 362.8 klbf.
#[test]
fn law_slips_crush_by_hand() {
    let mut fit = crate::example("ostrick");
    (fit.rig.slips.length, fit.rig.slips.rating) = (Some(16.0 * 0.0254), Some(1e9));
    let capacity = judged(&ask(&fit, "hoisting/slips", Operation::Connection)).limit.capacity;
    assert!((capacity / KLBF - 362.8).abs() < 0.3, "{}", capacity / KLBF);
}

/// Casing hangs in its own elevators and its own spider: each flips at the load of the casing, and a rig that gives
/// elevators for casing owes the spider.
#[test]
fn law_casing_has_elevators_and_a_spider_of_its_own() {
    let mut fit = crate::example("ostrick");
    let basis = Basis::new(&fit);
    let load = Scene::new(&basis, situation(&fit, Operation::RunningCasing)).drag(&mut Off).picked_up_tension;
    (fit.rig.slips.casing_rating, fit.rig.casing_elevators) = (Some(load.next_down()), Some(1e12));
    (fit.rig.block.rating, fit.rig.block.hook_rating, fit.rig.drive.rating) = (Some(1e12), Some(1e12), Some(1e12));
    assert_eq!(ask(&fit, "hoisting/slips", Operation::RunningCasing).verdict(), Verdict::Short);
    assert_eq!(ask(&fit, "hoisting/hoist-parts", Operation::RunningCasing).verdict(), Verdict::Holds);
    (fit.rig.slips.casing_rating, fit.rig.casing_elevators) = (Some(load), Some(load.next_down()));
    assert_eq!(ask(&fit, "hoisting/slips", Operation::RunningCasing).verdict(), Verdict::Thin);
    assert_eq!(ask(&fit, "hoisting/hoist-parts", Operation::RunningCasing).verdict(), Verdict::Short);
    fit.rig.slips.casing_rating = None;
    let Answer::Missing(missing) = ask(&fit, "hoisting/slips", Operation::RunningCasing) else { panic!("the spider") };
    assert_eq!(missing, ["rig.slips.casing_rating"]);
    // Without any of them casing hangs in the rig's own elevators.
    fit.rig.casing_elevators = None;
    assert_eq!(ask(&fit, "hoisting/slips", Operation::RunningCasing).verdict(), Verdict::DoesNotArise);
    fit.rig.elevators = Some(load.next_down());
    assert_eq!(judged(&ask(&fit, "hoisting/hoist-parts", Operation::RunningCasing)).limit.name, "elevators");
}

/// Stick-up of 4 ft, a stand of 93 ft, 36 ft of block and 5²/(2 x 1.64) = 7.6 ft of stopping.
#[test]
fn law_stand_height_by_hand() {
    let mut fit = crate::example("ostrick");
    (fit.rig.block.length, fit.rig.mast.clear_height) = (Some(36.0 * FOOT), Some(160.0 * FOOT));
    *fit.rig.drawworks.block_speed = 5.0 * FOOT;
    *fit.rig.drawworks.acceleration = 0.5;
    let found = judged(&ask(&fit, "hoisting/stand-height", Operation::Drilling));
    let feet = 4.0 + 93.0 + 36.0 + 25.0 * FOOT / (2.0 * 0.5);
    assert!((found.demand / FOOT - feet).abs() < 1e-9);
    fit.rig.mast.clear_height = Some((feet + 9.99) * FOOT);
    assert_eq!(ask(&fit, "hoisting/stand-height", Operation::Drilling).verdict(), Verdict::Thin);
    fit.rig.mast.clear_height = Some((feet + 10.01) * FOOT);
    assert_eq!(ask(&fit, "hoisting/stand-height", Operation::Drilling).verdict(), Verdict::Holds);
}

/// API RP 9B asks for 2.5 on the raising line: 110 klbf want 275 klbf of line.
#[test]
fn law_raising_line_flips_at_its_design_factor() {
    let mut fit = crate::example("ostrick");
    fit.rig.raising_line.pull = Some(110.0 * KLBF);
    for (strength, verdict) in [(274.9, Verdict::Short), (275.1, Verdict::Thin), (310.0, Verdict::Holds)] {
        fit.rig.raising_line.strength = Some(strength * KLBF);
        assert_eq!(ask(&fit, "hoisting/raising-line", Operation::Drilling).verdict(), verdict);
    }
}

/// The first layer pulls more than the last by the ratio of their diameters, and gives less speed by the same.
#[test]
fn law_layers_share_torque_and_speed() {
    let mut fit = crate::example("ostrick");
    (fit.rig.drawworks.drum, fit.rig.drawworks.wraps) = (Some(28.0 * 0.0254), Some(38.0));
    let Answer::Told(figures) = ask(&fit, "hoisting/drum", Operation::Drilling) else { panic!("told") };
    let named = |name: &str| figures.iter().find(|figure| figure.name == name).unwrap().value;
    // 930 ft of line on laps of π (28 + 1.375) in and more: 28 free wraps of 7.69 ft on the first layer, 38 of 8.3 ft on
    // the second, 38 of 8.9 ft on the third, the rest on the fourth.
    assert!((named("last layer") - 4.0).abs() < 1e-9, "{}", named("last layer"));
    let ratio = named("pull on the first layer") / named("pull on the last");
    assert!((ratio - named("its diameter") / (29.375 * 0.0254)).abs() < 1e-9);
    assert!((named("block speed on the first") * ratio / *fit.rig.drawworks.block_speed - 1.0).abs() < 1e-9);
    // With more dead wraps than the drum holds there is nothing to tell.
    fit.rig.drawworks.dead_wraps = 1e6;
    assert!(matches!(ask(&fit, "hoisting/drum", Operation::Drilling), Answer::DoesNotArise(_)));
}

/// In a vertical hole nothing holds the casing; in a bent one with friction enough it does not go down by itself.
#[test]
fn law_casing_slides_unless_friction_holds_it() {
    // Mud without a flow curve neither lifts nor drags.
    let still = |name: &str| {
        let mut fit = crate::example(name);
        fit.well.sections.iter_mut().for_each(|section| section.mud.rheogram.readings.clear());
        fit
    };
    let vertical = judged(&ask(&still("ostrick"), "hoisting/casing-to-bottom", Operation::RunningCasing));
    assert!(vertical.demand.abs() < 1e-6 * vertical.limit.capacity);
    // Surge that lifts it holds it up too.
    let surged = judged(&ask(&crate::example("ostrick"), "hoisting/casing-to-bottom", Operation::RunningCasing));
    assert!(surged.demand > 1e-3 * surged.limit.capacity);
    let mut fit = still("tolvane");
    let room = |fit: &Fit| judged(&ask(fit, "hoisting/casing-to-bottom", Operation::RunningCasing)).room();
    let before = room(&fit);
    (fit.well.friction.cased, fit.well.friction.open) = (0.4, 0.5);
    assert!(room(&fit) < before);
    // Without friction the march weighs the string along the vertical.
    (fit.well.friction.cased, fit.well.friction.open) = (0.0, 0.0);
    let free = judged(&ask(&fit, "hoisting/casing-to-bottom", Operation::RunningCasing));
    assert!(free.demand < 1e-6 * free.limit.capacity, "{free:?}");
}

#[test]
fn law_workings_give_the_same_answers() {
    let mut fit = crate::example("tolvane");
    fit.rig.line.anchor_rating = Some(80.0 * KLBF);
    (fit.rig.crown.weight, fit.rig.mast.leg_rating) = (Some(9.0 * KLBF), Some(300.0 * KLBF));
    (fit.rig.slips.length, fit.rig.slips.rating) = (Some(0.4), Some(700.0 * KLBF));
    (fit.rig.drawworks.drum, fit.rig.drawworks.wraps) = (Some(0.7), Some(38.0));
    (*fit.rig.drawworks.brake_power, *fit.rig.drawworks.brake_torque) = (Some(1e6), Some(2e5));
    (fit.rig.block.length, fit.rig.mast.clear_height) = (Some(11.0), Some(43.0));
    fit.rig.mast.rotary_load = Some(700.0 * KLBF);
    let basis = Basis::new(&fit);
    for operation in [Operation::PullingOut, Operation::RunningIn, Operation::RunningCasing, Operation::Connection] {
        for question in hoisting::SYSTEM.questions() {
            let scene = Scene::new(&basis, situation(&fit, operation));
            let mut working = Working::default();
            let shown = (question.show)(&scene, &mut working);
            assert_eq!(shown, (question.ask)(&scene, &mut Off), "{}", question.slug);
            if shown.judged().is_some() {
                let steps = working.lines.iter().filter(|line| matches!(line, Line::Step { .. } | Line::Given { .. })).count();
                assert!(steps >= 2, "{}", question.slug);
            }
        }
    }
}
