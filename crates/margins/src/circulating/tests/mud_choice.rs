//! The mud of the next section, and candidate muds.

use super::told;
use crate::circulating::mud_choice;
use crate::{Answer, Basis, Scene, Verdict, sweep};
use rigwright_physics::{Off, Working};
use rigwright_well::{CandidateMud, Fit, Operation};

fn ask(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer, section: usize) -> Answer {
    let basis = Basis::new(fit);
    let bottom = fit.well.sections[section].bottom;
    question(&Scene::new(&basis, sweep::situation(fit, section, Operation::Drilling, bottom, bottom)), &mut Off)
}

/// Barite and growth by the balances m = V ρb (ρ2 - ρ1)/(ρb - ρ2) and m/ρb, and money by hand.
#[test]
fn law_weighting_up_to_the_next_mud_by_hand() {
    let mut fit = crate::example("ostrick");
    fit.well.prices.barite = Some(0.2);
    let answer = ask(&fit, mud_choice::next_mud::<Off>, 0);
    let volume = told(&answer, "new mud instead: volume");
    let (now, then) = (fit.well.sections[0].mud.weight, fit.well.sections[1].mud.weight);
    let mass = volume * 4200.0 * (then - now) / (4200.0 - then);
    assert!((told(&answer, "weighting up: barite") / mass - 1.0).abs() < 1e-12);
    assert!((told(&answer, "weighting up: growth") / (mass / 4200.0) - 1.0).abs() < 1e-9);
    assert!((told(&answer, "weighting up: cost") / (0.2 * mass) - 1.0).abs() < 1e-12);
    // Thrown away and weighted up, as much mud stands there as before: what goes is what the barite takes.
    let (gone, barite) = (told(&answer, "keeping the volume: mud"), told(&answer, "keeping the volume: barite"));
    assert!((gone / (barite / 4200.0) - 1.0).abs() < 1e-9);
    fit.well.prices.barite = None;
    let Answer::Told(figures) = ask(&fit, mud_choice::next_mud::<Off>, 0) else { panic!() };
    assert!(figures.iter().all(|figure| figure.name != "weighting up: cost"), "no price, no cost");
    assert_eq!(ask(&fit, mud_choice::next_mud::<Off>, 2).verdict(), Verdict::DoesNotArise);
    fit.rig.pits.active = None;
    assert_eq!(ask(&fit, mud_choice::next_mud::<Off>, 0), Answer::Missing(vec!["rig.pits.active"]));
}

/// What is added and what was there weigh together what is wanted.
#[test]
fn law_dilution_balances() {
    let mut fit = crate::example("ostrick");
    fit.well.sections[1].mud.weight = 1060.0;
    let answer = ask(&fit, mud_choice::next_mud::<Off>, 0);
    let (volume, added) = (told(&answer, "new mud instead: volume"), told(&answer, "diluting: to add"));
    let now = fit.well.sections[0].mud.weight;
    let mixed = (volume * now + added * 998.2) / (volume + added);
    assert!((mixed - 1060.0).abs() < 1e-6, "{mixed}");
}

/// A candidate that is the mud in use compares as the mud in use does; a thin mud that is far too heavy leaves the window.
#[test]
fn law_a_candidate_like_the_mud_in_use_compares_alike() {
    let mut fit = crate::example("ostrick");
    let mud = fit.well.sections[2].mud.clone();
    let twin = CandidateMud {
        name: "twin".into(),
        kind: mud.kind,
        weight: mud.weight,
        rheogram: mud.rheogram.clone(),
        gels: mud.gels,
        price: Some(100.0),
        discharge: None,
    };
    *fit.well.sections[2].candidate_muds = vec![twin.clone()];
    let alike = ask(&fit, mud_choice::candidate_muds::<Off>, 2);
    let kept = told(&alike, "muds that keep the window");
    assert!((kept - 2.0).abs() < 1e-9 || kept.abs() < 1e-9, "{kept}");
    let room = told(&alike, "most room in the window: mud");
    assert!((1.0..=2.0).contains(&room));
    let heavy = CandidateMud { name: "heavy".into(), weight: 2200.0, ..twin.clone() };
    *fit.well.sections[2].candidate_muds = vec![twin, heavy];
    let three = ask(&fit, mud_choice::candidate_muds::<Off>, 2);
    assert!((told(&three, "muds compared") - 3.0).abs() < 1e-9);
    assert!((told(&three, "muds that keep the window") - kept).abs() < 1e-9, "the heavy one keeps no window");
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
    assert_eq!(mud_choice::candidate_muds(&scene, &mut Working::default()), three);
    fit.well.sections[2].candidate_muds.clear();
    assert_eq!(ask(&fit, mud_choice::candidate_muds::<Off>, 2).verdict(), Verdict::DoesNotArise);
}
