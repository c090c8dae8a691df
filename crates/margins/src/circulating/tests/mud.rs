//! Solids, filtrate and sticking on the demo well.

use crate::circulating::{solids, sticking};
use crate::{Answer, Basis, Scene, Verdict, sweep};
use rigwright_physics::circulating::density::salts::Salt;
use rigwright_physics::{Off, STANDARD_GRAVITY, Working};
use rigwright_well::{Filtrate, Fit, MudKind, Operation, Progress, Retort};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const PPG: f64 = 0.453_592_37 / (231.0 * INCH * INCH * INCH);
const PSI: f64 = 0.453_592_37 * STANDARD_GRAVITY / (INCH * INCH);
const POUND_FORCE: f64 = 0.453_592_37 * STANDARD_GRAVITY;

fn ask(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer, operation: Operation, bit_depth: f64) -> Answer {
    let basis = Basis::new(fit);
    let hole_depth = fit.well.sections[2].bottom;
    question(&Scene::new(&basis, sweep::situation(fit, 2, operation, hole_depth, bit_depth)), &mut Off)
}

fn demand(answer: &Answer) -> f64 {
    answer.judged().unwrap_or_else(|| panic!("{answer:?}")).demand
}

/// Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, p. 92: 16.0 ppg, 73,000 mg/l chlorides, 57 % water, 7.5 % oil gives
/// 11.15 % of light solids. The book carries 12 for 100/8.33 and rounds on the way: 0.25 % of the mud.
#[test]
fn published_salt_mud_of_16_ppg() {
    let mut fit = crate::example("ostrick");
    let mud = &mut fit.well.sections[2].mud;
    mud.kind = MudKind::Water;
    mud.weight = 16.0 * PPG;
    mud.retort = Some(Retort {
        oil: 0.075,
        water: 0.57,
        chlorides: Some(73.0),
        salt: Salt::SodiumChloride,
        salt_fraction: None,
        oil_density: 840.0,
        light_density: 2600.0,
        heavy_density: 4200.0,
        most_light: 0.06,
    });
    let answer = ask(&fit, solids::solids::<Off>, Operation::Drilling, 3000.0);
    assert!((demand(&answer) - 0.1115).abs() < 0.0025, "{answer:?}");
    assert_eq!(answer.verdict(), Verdict::Short);
}

/// A brine told by its chlorides or by its share of salt is the same brine: 73 g/L of chloride are 120.3 g/L of sodium chloride
/// (58.443/35.453), 11.1 % of a brine of 1,081 kg/m³ (the book's own density of it). The book's formula and the mass balance agree to
/// a thousandth of the mud.
#[test]
fn agrees_salt_by_chlorides_and_by_share() {
    let mut fit = crate::example("ostrick");
    let found = |fit: &Fit| demand(&ask(fit, solids::solids::<Off>, Operation::Drilling, 3000.0));
    let retort = fit.well.sections[2].mud.retort.as_mut().unwrap();
    retort.chlorides = Some(73.0);
    let by_chlorides = found(&fit);
    let retort = fit.well.sections[2].mud.retort.as_mut().unwrap();
    (retort.salt, retort.salt_fraction) = (Salt::SodiumChloride, Some(0.1113));
    let by_share = found(&fit);
    assert!((by_chlorides - by_share).abs() < 0.004, "{by_chlorides} {by_share}");
}

#[test]
fn law_missing_salt_is_unknown_and_no_retort_does_not_arise() {
    let mut fit = crate::example("ostrick");
    let asked = |fit: &Fit| ask(fit, solids::solids::<Off>, Operation::Drilling, 3000.0);
    fit.well.sections[2].mud.retort.as_mut().unwrap().chlorides = None;
    assert_eq!(asked(&fit), Answer::Missing(vec!["section[].mud.retort.chlorides"]));
    fit.well.sections[2].mud.kind = MudKind::Oil;
    assert_eq!(asked(&fit), Answer::Missing(vec!["section[].mud.retort.salt_fraction"]));
    fit.well.sections[2].mud.retort = None;
    assert_eq!(asked(&fit).verdict(), Verdict::DoesNotArise);
}

/// Bourgoyne et al., Applied Drilling Engineering, ch. 2 (from memory): 6.5 cm³ at 1 min and 14.2 at 7.5 min are a spurt of 2.07
/// and 26.33 cm³ in half an hour.
#[test]
fn published_spurt_and_standard_filtrate() {
    let mut fit = crate::example("ostrick");
    fit.well.sections[2].mud.filtrate = vec![Filtrate { time: 60.0, volume: 6.5e-6 }, Filtrate { time: 450.0, volume: 14.2e-6 }];
    let Answer::Told(figures) = ask(&fit, solids::filtrate::<Off>, Operation::Drilling, 3000.0) else { panic!() };
    assert!((figures[0].value - 26.33e-6).abs() < 0.005e-6 && (figures[1].value - 2.07e-6).abs() < 0.005e-6);
}

/// The reference case of 6 1/2 in collars in 0.1 in of cake of an 8 1/2 in hole: 100 ft at 500 psi and 0.2 are held by 383,520 lbf
/// (chord of two circles by an independent script). Here the rock is given the pressure that makes it 500 psi at the collars' foot.
#[test]
fn agrees_force_of_stuck_collars() {
    let mut fit = crate::example("ostrick");
    // Mud of one weight, as in the sum by hand.
    fit.well.sections[2].mud.retort = None;
    let bit_depth = 3200.0;
    let inputs = &mut fit.well.sections[2].sticking;
    (inputs.cake, inputs.cake_friction, inputs.contact_length) = (Some(0.1 * INCH), Some(0.2), Some(100.0 * FOOT));
    let weight = fit.well.sections[2].mud.weight;
    for layer in &mut fit.well.formations {
        layer.pore = [layer.top, layer.base].map(|depth| weight * STANDARD_GRAVITY * depth - 500.0 * PSI);
    }
    let answer = ask(&fit, sticking::sticking::<Off>, Operation::PullingOut, bit_depth);
    let force = demand(&answer) / POUND_FORCE;
    assert!((force / 383_520.0 - 1.0).abs() < 2e-4, "{force}");
    let working = |fit: &Fit| {
        let basis = Basis::new(fit);
        let scene = Scene::new(&basis, sweep::situation(fit, 2, Operation::PullingOut, fit.well.sections[2].bottom, bit_depth));
        let mut working = Working::default();
        (sticking::sticking(&scene, &mut working), working.lines.len())
    };
    let (shown, lines) = working(&fit);
    assert_eq!(shown, answer);
    assert!(lines > 20);
}

#[test]
fn law_no_sticking_without_overbalance_or_without_permeable_rock() {
    let mut fit = crate::example("ostrick");
    let asked = |fit: &Fit| ask(fit, sticking::sticking::<Off>, Operation::PullingOut, 3200.0);
    fit.well.sections[2].sticking.cake_friction = None;
    assert_eq!(asked(&fit), Answer::Missing(vec!["section[].sticking.cake_friction"]));
    fit.well.sections[2].sticking.cake_friction = Some(0.2);
    fit.well.sections[2].mud.weight = 1000.0;
    assert!(demand(&asked(&fit)).abs() < 1e-6, "no mud presses on this rock");
    for layer in &mut fit.well.formations {
        layer.fluid = None;
    }
    assert_eq!(asked(&fit).verdict(), Verdict::DoesNotArise);
}

#[test]
fn law_overbalance_flips_at_the_crews_own_limit() {
    let mut fit = crate::example("ostrick");
    let asked = |fit: &Fit| ask(fit, sticking::most_overbalance::<Off>, Operation::Drilling, 3350.0);
    let over = demand(&asked(&fit));
    // 11.5 ppg over 9.6 at 7,000 ft or 10.8 at 11,200 ft with 400 psi of friction at most: between 650 and 1,100 psi.
    assert!((650.0 * PSI..1100.0 * PSI).contains(&over), "{}", over / PSI);
    fit.well.sections[2].sticking.most_overbalance = Some(over * (1.0 + 1e-9));
    assert_eq!(asked(&fit).verdict(), Verdict::Thin);
    fit.well.sections[2].sticking.most_overbalance = Some(over * (1.0 - 1e-9));
    assert_eq!(asked(&fit).verdict(), Verdict::Short);
    fit.well.sections[2].sticking.most_overbalance = None;
    assert_eq!(asked(&fit).verdict(), Verdict::DoesNotArise);
}

/// Drilled at a steady rate with steady pumps, the readings say what the planned rates say: the sample comes from as far up as was
/// drilled during its lag.
#[test]
fn law_steady_readings_give_the_steady_sample() {
    let mut fit = crate::example("ostrick");
    let bottom = fit.well.sections[2].bottom;
    let asked = |fit: &Fit| ask(fit, crate::circulating::figures::sample_depth::<Off>, Operation::Drilling, bottom);
    let Answer::Told(planned) = asked(&fit) else { panic!() };
    let pump = &fit.rig.pump;
    let liner = fit.well.sections[2].drilling.liner;
    let output = 3.0 * std::f64::consts::FRAC_PI_4 * liner * liner * pump.stroke * pump.volumetric_efficiency;
    let drilling = fit.well.sections[2].drilling;
    let strokes = |depth: f64| (depth - 3000.0) / drilling.penetration_rate * drilling.flow_rate / output;
    fit.well.sections[2].progress = [3000.0, 3200.0, bottom].map(|depth| Progress { depth, strokes: strokes(depth) }).to_vec();
    let Answer::Told(read) = asked(&fit) else { panic!() };
    let (planned, read) = (planned[1].value, read[1].value);
    // The steady sample takes the lag of the whole hole, the readings that of the depth itself: a few metres shorter.
    assert!((planned - read).abs() < 0.5, "{planned} {read}");
}

/// A pump that ran on bottom for a while pushes more up: the sample is from deeper, never from below the hole.
#[test]
fn law_circulating_brings_the_sample_nearer() {
    let mut fit = crate::example("ostrick");
    let bottom = fit.well.sections[2].bottom;
    let sample = |fit: &Fit| match ask(fit, crate::circulating::figures::sample_depth::<Off>, Operation::Drilling, bottom) {
        Answer::Told(figures) => Some(figures[1].value),
        _ => None,
    };
    let row = |depth: f64, strokes: f64| Progress { depth, strokes };
    fit.well.sections[2].progress = vec![row(3000.0, 0.0), row(bottom, 60_000.0)];
    let drilled = sample(&fit).unwrap();
    fit.well.sections[2].progress.push(row(bottom, 61_000.0));
    let circulated = sample(&fit).unwrap();
    assert!(circulated > drilled && circulated < bottom, "{drilled} {circulated}");
    fit.well.sections[2].progress = vec![row(bottom - 1.0, 0.0), row(bottom, 100.0)];
    assert_eq!(sample(&fit), None, "nothing is up yet");
}
