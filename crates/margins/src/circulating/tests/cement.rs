//! The cement job: sums by hand and laws.

use super::*;

/// The last string of ostrick, its slurry displaced slowly, at the shoe above it: vertical hole, 7,190 ft, cement from 6,500 ft.
fn slow(change: impl Fn(&mut rigwright_well::Casing)) -> Fit {
    let mut fit = plain("ostrick.toml");
    let casing = fit.well.sections[2].casing.as_mut().unwrap();
    casing.cement_rate = Some(0.003);
    change(casing);
    fit
}

fn at_shoe(fit: &Fit) -> f64 {
    let basis = Basis::new(fit);
    let mut scene = Scene::new(&basis, sweep::section_end(fit, 2));
    scene.at = Some(7190.0 * FOOT);
    judged(&(question("circulating/cement-lift").unwrap().ask)(&scene, &mut Off)).demand / PPG
}

/// By hand: 690 ft of 15.8 ppg in the place of 11.5 ppg, over 7,190 ft.
#[test]
fn law_slurry_weighs_more_by_its_height() {
    let weight = |ppg: f64| at_shoe(&slow(|casing| casing.cement_weight = Some(ppg * PPG)));
    let (mud, slurry) = (weight(11.5), weight(15.8));
    // Slow flow is laminar: friction does not feel the weight.
    assert!((slurry - mud - 4.3 * 690.0 / 7190.0).abs() < 1e-3, "{slurry} {mud}");
    assert!(mud > 11.5, "friction comes on top");
    assert!((weight(9.0) - mud).abs() < 1e-3, "a lighter slurry: the mud before it counts");
    let high = at_shoe(&slow(|casing| casing.cement_top = Some(7190.0 * FOOT)));
    assert!((high - mud).abs() < 1e-3, "below the top of cement only");
}

/// Friction is what pumped mud of one weight loses: the same as flowing up past the same pipe at that rate.
#[test]
fn law_faster_displacement_presses_harder() {
    let with = |rate: f64| at_shoe(&slow(|casing| casing.cement_rate = Some(rate)));
    let mut before = with(0.002);
    for rate in [0.005, 0.010, 0.020, 0.040] {
        let now = with(rate);
        assert!(now > before, "{rate}");
        before = now;
    }
}

#[test]
fn law_the_cement_job_names_what_it_misses_and_flips_at_its_limit() {
    let ask = |fit: &Fit| ask(fit, "circulating/cement-lift", 2, Operation::Drilling);
    let bare = slow(|casing| (casing.cement_top, casing.cement_rate) = (None, None));
    assert_eq!(ask(&bare), Answer::Missing(vec!["section[].casing.cement_top", "section[].casing.cement_rate"]));
    let mut open = bare.clone();
    *open.well.sections[2].casing = None;
    assert_eq!(ask(&open), Answer::DoesNotArise("no casing is cemented"));
    let verdict = |ppg: f64| ask(&slow(|casing| casing.cement_weight = Some(ppg * PPG))).verdict();
    let (mut good, mut bad) = (11.5, 25.0);
    assert_eq!((verdict(good), verdict(bad)), (Verdict::Holds, Verdict::Short));
    for _ in 0..40 {
        let middle = 0.5 * (good + bad);
        if verdict(middle) == Verdict::Short { bad = middle } else { good = middle }
    }
    let judged = judged(&ask(&slow(|casing| casing.cement_weight = Some(good * PPG))));
    assert!((judged.demand / judged.limit.capacity - 1.0).abs() < 1e-6, "{judged:?}");
}

/// The working comes to the pressure that is judged.
#[test]
fn law_the_working_of_the_cement_job_ends_in_its_demand() {
    let fit = example("ostrick.toml");
    let basis = Basis::new(&fit);
    for section in 0..3 {
        let scene = Scene::new(&basis, sweep::section_end(&fit, section));
        let mut working = Working::default();
        let shown = (question("circulating/cement-lift").unwrap().show)(&scene, &mut working);
        let demand = judged(&shown).demand;
        let weights: Vec<f64> = working
            .lines
            .iter()
            .filter_map(|line| match line {
                Line::Step { record, value, .. } if record.slug == "equivalent-mud-weight" => Some(*value),
                _ => None,
            })
            .collect();
        assert!(weights.iter().any(|weight| (weight / demand - 1.0).abs() < 1e-9), "{section}: {weights:?} {demand}");
    }
}
