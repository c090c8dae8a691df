//! Published ratings, sums by hand and laws of the design of casing.

use super::*;
use crate::{Basis, Review, Verdict, question, review, sweep};
use rigwright_physics::{Line, Working};
use rigwright_well::Fit;

const FOOT: f64 = 0.3048;
const POUND_FORCE: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;
const PSI: f64 = POUND_FORCE / (0.0254 * 0.0254);
/// 12/231 psi per foot and pound per gallon.
const PPG: f64 = 12.0 / 231.0;

type Ask = fn(&Scene, &mut Off) -> Answer;
const ALL: [Ask; 4] = [inside::<Off>, collapse::<Off>, tension::<Off>, triaxial::<Off>];

fn ask_at(fit: &Fit, section: usize, ask: Ask, at: Option<f64>) -> Answer {
    let basis = Basis::new(fit);
    let mut scene = Scene::new(&basis, sweep::section_end(fit, section));
    scene.at = at;
    ask(&scene, &mut Off)
}

fn ask(fit: &Fit, section: usize, question: Ask) -> Judged {
    *ask_at(fit, section, question, None).judged().unwrap()
}

/// The example with the intermediate string alone: 9 5/8 in 47 lb/ft L-80, no gas from below.
fn without_gas() -> Fit {
    let mut fit = crate::example("ostrick");
    fit.well.sections.truncate(2);
    fit
}

/// API Bulletin 5C2 (from memory): 9 5/8 in 47 lb/ft of 80 ksi bursts at 6,870 psi and yields at 1,086,000 lbf, printed to
/// 10 psi and 1,000 lbf.
#[test]
fn published_5c2_ratings_are_the_capacities() {
    let mut fit = without_gas();
    let casing = fit.well.sections[1].casing.as_mut().unwrap();
    (casing.burst_fraction, casing.connection_burst, casing.connection_tension) = (Some(1.0), Some(1e9), Some(1e9));
    fit.well.casing_factors.tension = 1.0;
    assert!((ask(&fit, 1, inside).limit.capacity / PSI - 6_870.0).abs() <= 5.0);
    assert!((ask(&fit, 1, tension).limit.capacity / POUND_FORCE - 1_086_000.0).abs() <= 500.0);
}

/// API Bulletin 5C2 (from memory): 4,750 psi of collapse without tension, printed to 10 psi. Slurry of 15.6 ppg from 2,000 ft
/// to the shoe at 7,190 ft weighs 12/231 (15.6 - 10.2) 5,190 psi more than the mud, and 2 t/D of the mud inside counts too.
#[test]
fn published_5c2_collapse_at_the_shoe_in_its_cement() {
    let mut fit = without_gas();
    fit.well.casing_factors.collapse = 1.0;
    let judged = ask(&fit, 1, collapse);
    assert_eq!(judged.limit.name, "collapse of the casing while it is cemented");
    assert!((judged.limit.capacity / PSI - 4_750.0).abs() <= 5.0, "compressed at its shoe: the grade counts in full");
    let by_hand = PPG * (5.4 * 5_190.0 + 2.0 * 0.472 / 9.625 * 10.2 * 7_190.0);
    assert!((judged.demand / PSI / by_hand - 1.0).abs() < 1e-6, "{} {by_hand}", judged.demand / PSI);
    assert!((judged.place.depth().unwrap() / FOOT - 7_190.0).abs() < 1e-6);
}

/// Tension at surface by hand. Hanging: 47 lb/ft x 7,190 ft in air, less mud and slurry on the closed end. Held, at a test
/// of 3,500 psi: 0.6 times the bore, and 0.6 times the outside for mud that turned to water over the free 2,000 ft.
#[test]
fn law_tension_of_every_case_by_hand() {
    let fit = without_gas();
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 1));
    let casing = fit.well.sections[1].casing.as_ref().unwrap();
    let design = Design::new(&scene, casing, &mut Off);
    let at_surface = |case| design.loads(case).unwrap()[0].nodes[0].true_tension / POUND_FORCE;
    let quarter = std::f64::consts::FRAC_PI_4;
    let (bore, outside) = (quarter * 8.681f64.powi(2), quarter * 9.625f64.powi(2));
    let air = 47.0 * 7_190.0;
    let hanging = air + bore * PPG * 10.2 * 7_190.0 - outside * PPG * (10.2 * 2_000.0 + 15.6 * 5_190.0);
    let water = 1_000.0 / 0.453_592_37 * 231.0 * 0.0254f64.powi(3);
    let held = hanging + 0.6 * (bore * 3_500.0 - outside * 0.5 * PPG * (water - 10.2) * 2_000.0);
    let picked_up = air * (1.0 - 10.2 * 0.453_592_37 / (231.0 * 0.0254f64.powi(3)) / rigwright_physics::tubular::STEEL_DENSITY);
    // Mud that is pushed up while casing goes in is drawn down while it is picked up.
    let running = Scene::new(
        &basis,
        sweep::situation(&fit, 1, rigwright_well::Operation::RunningCasing, scene.section().bottom, casing.shoe),
    );
    let swab = crate::lift_above(&running, casing.shoe) / POUND_FORCE;
    for (case, by_hand) in [
        (Case::Cementing, hanging),
        (Case::Bump, hanging + 2_200.0 * bore),
        (Case::Test, held),
        (Case::Running, picked_up + swab + 100_000.0),
    ] {
        let found = at_surface(case);
        assert!((found / by_hand - 1.0).abs() < 1e-6, "{case:?} {found} {by_hand}");
    }
}

/// The pressure at surface with gas inside is that of the question on kicks, and grows downwards by the weight of gas.
#[test]
fn law_gas_is_that_of_the_kick_questions() {
    let fit = crate::example("ostrick");
    let judged = ask(&fit, 1, inside);
    assert_eq!((judged.limit.name, judged.place), ("burst of the body with gas to surface", Place::Surface));
    let basis = Basis::new(&fit);
    let kick = question("control/casing-burst").unwrap();
    let of_kick = (kick.ask)(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut Off);
    assert!((of_kick.judged().unwrap().demand / judged.demand - 1.0).abs() < 1e-12);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 1));
    let design = Design::new(&scene, fit.well.sections[1].casing.as_ref().unwrap(), &mut Off);
    let nodes = &design.loads(Case::Gas).unwrap()[0].nodes;
    let gain = (nodes[nodes.len() - 1].inside - nodes[0].inside) / PSI;
    assert!((0.04..0.16).contains(&(gain / 7_190.0)), "gas weighs between 0.04 and 0.16 psi/ft: {gain}");
}

/// Mud of 11.5 ppg falls until it balances the rock: the level is the deepest that any depth below the shoe leaves.
#[test]
fn law_the_level_balances_the_rock() {
    let fit = crate::example("ostrick");
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 1));
    let design = Design::new(&scene, fit.well.sections[1].casing.as_ref().unwrap(), &mut Off);
    let loads = design.loads(Case::Losses).unwrap();
    let level = loads[0].nodes.iter().rev().find(|node| node.inside <= 0.0).unwrap().depth;
    let points = basis.flow.section(&fit, 2).open_hole.points();
    let gravity = scene.gravity();
    let left = |vertical_depth: f64| (vertical_depth - level) * fit.well.sections[2].mud.weight * gravity;
    // The rock that takes mud balances what is left of it; nowhere else does more mud stand than the rock holds.
    let most = points.iter().map(|point| left(point.vertical_depth) - point.pore).fold(f64::NEG_INFINITY, f64::max);
    assert!(most.abs() < 1.0, "{most}");
    // Emptied to its shoe by wish, the whole mud outside counts.
    let mut emptied = fit.clone();
    emptied.well.sections[1].casing.as_mut().unwrap().empty_to = Some(7_190.0 * FOOT);
    let judged = ask(&emptied, 1, collapse);
    assert!((judged.demand / PSI / (PPG * 10.2 * 7_190.0) - 1.0).abs() < 1e-6);
}

/// Each question flips where its demand meets what may be used: design factor or share turned until it does.
#[test]
fn law_verdicts_flip_at_their_limits() {
    let fit = without_gas();
    let flips = |question: Ask, turn: fn(&mut Fit, f64)| {
        let judged = ask(&fit, 1, question);
        for (edge, verdict) in [(1.0 + 1e-9, Verdict::Short), (1.0 - 1e-9, Verdict::Thin)] {
            let mut turned = fit.clone();
            turn(&mut turned, judged.limit.capacity / judged.demand * edge);
            assert_eq!(ask_at(&turned, 1, question, None).verdict(), verdict);
        }
    };
    flips(collapse, |fit, by| fit.well.casing_factors.collapse *= by);
    flips(tension, |fit, by| fit.well.casing_factors.tension *= by);
    flips(triaxial, |fit, by| fit.well.casing_factors.triaxial *= by);
    flips(inside, |fit, by| {
        for fraction in fit.well.sections[1].casing.iter_mut().flat_map(|casing| casing.burst_fraction.iter_mut()) {
            *fraction /= by;
        }
    });
}

#[test]
fn law_what_nobody_gave_is_named() {
    let mut fit = without_gas();
    let bare = fit.well.sections[1].casing.as_mut().unwrap();
    (bare.connection_burst, bare.connection_tension) = (None, None);
    (bare.test_pressure, bare.bump_pressure, bare.cement_weight) = (None, None, None);
    let missing = |question: Ask| match ask_at(&fit, 1, question, None) {
        Answer::Missing(entries) => entries.iter().map(|entry| entry.trim_start_matches("section[].casing.")).collect(),
        _ => Vec::new(),
    };
    assert_eq!(missing(inside), ["bump_pressure", "cement_weight", "connection_burst", "test_pressure"]);
    assert_eq!(missing(collapse), ["cement_weight"]);
    assert_eq!(missing(tension), ["bump_pressure", "cement_weight", "connection_tension", "test_pressure"]);
    assert_eq!(missing(triaxial), ["bump_pressure", "cement_weight", "test_pressure"]);
    // A known load that is too much is short, whatever else is missing.
    fit.well.casing_factors.tension = 9.0;
    assert_eq!(ask_at(&fit, 1, tension, None).verdict(), Verdict::Short);
    *fit.well.sections[1].casing = None;
    for question in ALL {
        assert_eq!(ask_at(&fit, 1, question, None), OPEN);
    }
}

/// Heat takes off in proportion; a depth that somebody looks at is answered for itself; bends add stress.
#[test]
fn law_heat_bends_and_places() {
    let mut fit = crate::example("tolvane");
    let cold = ask(&fit, 1, triaxial);
    fit.well.sections[1].casing.as_mut().unwrap().hot_yield = 1.0;
    let warm = ask(&fit, 1, triaxial);
    assert!(cold.limit.capacity <= warm.limit.capacity);
    let shoe = fit.well.sections[1].casing.as_ref().unwrap().shoe;
    fit.well.sections[1].casing.as_mut().unwrap().hot_yield = 0.8;
    let at_shoe = *ask_at(&fit, 1, triaxial, Some(shoe)).judged().unwrap();
    assert_eq!(at_shoe.place, Place::Depth(shoe));
    assert!((at_shoe.limit.capacity / (0.8 * 110_000.0 * PSI / 1.25) - 1.0).abs() < 1e-9);
    let stress = |curvature| {
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 1));
        let design = Design::new(&scene, fit.well.sections[1].casing.as_ref().unwrap(), &mut Off);
        let node = Node { curvature, ..design.loads(Case::Running).unwrap()[0].nodes[0] };
        stress(&design, &node, &mut Off) / PSI
    };
    // The handbooks' 218 D c with 10 deg/100 ft, on pipe that is pulled only.
    let bend = 10f64.to_radians() / (100.0 * FOOT);
    assert!(((stress(bend) - stress(0.0)) / (218.0 * 9.625 * 10.0) - 1.0).abs() < 2e-3);
}

/// A string that is too weak is mended by more wall or a better grade, and never by a pipe whose drift stops the bit.
#[test]
fn law_a_weak_string_is_mended_by_weight_or_grade() {
    let mut fit = crate::example("ostrick");
    for pressure in fit.well.sections[1].casing.iter_mut().flat_map(|casing| casing.test_pressure.iter_mut()) {
        *pressure = 5_800.0 * PSI;
    }
    let reviewed = Review::new(&fit);
    let asked = reviewed.find("control/casing-pressure", Some(1)).unwrap();
    assert_eq!(asked.verdict(), Verdict::Short);
    let remedy = asked.remedy.as_ref().unwrap();
    assert_eq!(remedy.knob.name, "casing grade");
    let heavier = review::explain(&fit, question("control/casing-pressure").unwrap(), &review::Address::default());
    assert!(heavier.is_some());
    let knob = rigwright_wellfile::knob("casing weight").unwrap();
    let most = (knob.allowed)(&fit, 1).high / (0.453_592_37 / FOOT);
    assert!((most - 47.0).abs() < 1e-9, "53.5 lb/ft drifts at 8.379 in: the 8 1/2 in bit does not pass");
}

#[test]
fn law_the_working_gives_the_same_answer() {
    for (name, section) in [("ostrick", 1), ("tolvane", 1), ("tolvane", 2)] {
        let fit = crate::example(name);
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, section));
        let shows: [fn(&Scene, &mut Working) -> Answer; 4] =
            [inside::<Working>, collapse::<Working>, tension::<Working>, triaxial::<Working>];
        for (ask, show) in ALL.into_iter().zip(shows) {
            let mut working = Working::default();
            let shown = show(&scene, &mut working);
            assert_eq!(shown, ask(&scene, &mut Off));
            assert!(working.lines.iter().any(|line| matches!(line, Line::Table { rows, .. } if rows.len() > 10)));
        }
    }
}
