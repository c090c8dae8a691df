//! Managed pressure on the deviated example well, with the block that its file holds in a comment.

use super::plan::Plan;
use crate::{Address, Answer, Basis, Judged, Scene, Verdict, explain, question, sweep};
use rigwright_physics::{Off, STANDARD_GRAVITY};
use rigwright_well::{Fit, ManagedPressure, RotatingSeal};

const BAR: f64 = 1e5;
const LAST: usize = 2;

/// Mud of 1.66 sg under 3 bar while pumping and 22 bar at rest.
fn managed() -> Fit {
    let mut fit = crate::example("tolvane");
    let section = &mut fit.well.sections[LAST];
    section.mud.weight = 1660.0;
    section.managed_pressure = Some(ManagedPressure { flowing: 3.0 * BAR, still: 22.0 * BAR, ..ManagedPressure::default() });
    fit
}

fn block(fit: &mut Fit) -> &mut ManagedPressure {
    fit.well.sections[LAST].managed_pressure.as_mut().unwrap()
}

fn plan(fit: &Fit) -> Plan {
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::section_end(fit, LAST));
    Plan::new(&scene, &mut Off).unwrap().unwrap()
}

fn ask(fit: &Fit, slug: &str) -> Answer {
    let address = Address { section: Some(LAST), ..Address::default() };
    explain(fit, question(slug).unwrap(), &address).unwrap().asked.answer
}

fn judged(fit: &Fit, slug: &str) -> Judged {
    let answer = ask(fit, slug);
    *answer.judged().unwrap_or_else(|| panic!("{slug}: {answer:?}"))
}

#[test]
fn law_the_anchor_is_held_at_every_step() {
    let mut fit = managed();
    for anchor in [None, Some(3200.0), Some(2895.0)] {
        block(&mut fit).anchor = anchor;
        let plan = plan(&fit);
        for step in &plan.steps {
            let held = step.back_pressure + plan.column + step.loss;
            assert!((held - plan.target).abs() < 1.0, "{anchor:?}: {held} {}", plan.target);
        }
        // Slower pumps, more back pressure.
        assert!(plan.steps.windows(2).all(|pair| pair[1].back_pressure > pair[0].back_pressure));
        assert!((plan.steps[0].back_pressure - 3.0 * BAR).abs() < 1.0);
    }
}

#[test]
fn law_depths_over_the_anchor_are_loaded_and_depths_under_it_let_down() {
    let mut fit = managed();
    block(&mut fit).anchor = Some(3400.0);
    for at in plan(&fit).depths {
        let change = at.still - at.pumping;
        if at.point.depth < 3400.0 {
            assert!(change > 0.0, "{} m: {change}", at.point.depth);
        } else {
            assert!(change < 0.0, "{} m: {change}", at.point.depth);
        }
    }
    // What one anchor loads, the other lets down: the friction between the two.
    let shoe = fit.well.sections[1].casing.as_ref().unwrap().shoe;
    let change = |anchor: Option<f64>, depth: f64| {
        let mut fit = managed();
        block(&mut fit).anchor = anchor;
        let at = plan(&fit).depths.into_iter().find(|at| (at.point.depth - depth).abs() < 1e-6).unwrap();
        at.still - at.pumping
    };
    assert!((change(None, shoe) + change(Some(shoe), 4100.0)).abs() < 1.0);
}

#[test]
fn law_still_pressure_is_mud_and_back_pressure() {
    let plan = plan(&managed());
    for at in &plan.depths {
        let mud = 1660.0 * STANDARD_GRAVITY * at.point.vertical_depth;
        assert!((at.still - mud - plan.still()).abs() < 1.0);
    }
}

#[test]
fn law_seal_and_choke_flip_at_their_ratings() {
    let mut fit = managed();
    let highest = plan(&fit).still().max(22.0 * BAR);
    fit.rig.rotating_seal = RotatingSeal { turning: Some(100.0 * BAR), still: Some(highest) };
    assert_eq!(ask(&fit, "control/rotating-seal").verdict(), Verdict::Thin);
    fit.rig.rotating_seal.still = Some(highest.next_down());
    assert_eq!(ask(&fit, "control/rotating-seal").verdict(), Verdict::Short);
    fit.rig.managed_choke = Some(highest);
    assert_eq!(ask(&fit, "control/managed-choke").verdict(), Verdict::Thin);
    block(&mut fit).pressure_limit = Some(highest.next_down());
    assert_eq!(ask(&fit, "control/back-pressure-limit").verdict(), Verdict::Short);
}

#[test]
fn rejects_what_nobody_gave() {
    let mut fit = managed();
    fit.rig.rotating_seal = RotatingSeal::default();
    fit.rig.managed_choke = None;
    for (slug, missing) in [
        ("control/rotating-seal", vec!["rig.rotating_seal.turning", "rig.rotating_seal.still"]),
        ("control/managed-choke", vec!["rig.managed_choke.rating"]),
        ("control/back-pressure-limit", vec!["section[].managed_pressure.pressure_limit"]),
        ("control/influx-limit", vec!["section[].managed_pressure.influx_planned"]),
        ("control/back-pressure-lost", vec!["section[].managed_pressure.leak_rate", "section[].managed_pressure.run_down"]),
    ] {
        assert_eq!(ask(&fit, slug), Answer::Missing(missing), "{slug}");
    }
    let open = crate::example("tolvane");
    assert_eq!(ask(&open, "control/back-pressure").verdict(), Verdict::DoesNotArise);
}

/// By hand: the still back pressure may fall by what keeps the bottom over its pore pressure; the mud that this frees leaves at
/// 25 L/s.
#[test]
fn law_lost_pressure_bleeds_off_as_the_mud_gives_way() {
    let mut fit = managed();
    *block(&mut fit) =
        ManagedPressure { leak_rate: Some(0.025), run_down: Some(15.0), response_time: Some(60.0), ..*block(&mut fit) };
    let found = judged(&fit, "control/back-pressure-lost");
    assert_eq!(found.limit.name, "seal or choke lost, pumps off");
    let bottom = fit.well.path.vertical_depth_at(4100.0);
    let under = 1690.0 * STANDARD_GRAVITY * bottom - 1660.0 * STANDARD_GRAVITY * bottom;
    let freed = found.limit.capacity * 0.025 / (fit.well.sections[LAST].mud.compressibility * (22.0 * BAR - under));
    // The annulus: 2895 m of 216.8 x 127 mm, then hole of 3 % washout round pipe and collars; about 99.6 m³.
    assert!((freed - 99.6).abs() < 0.1, "{freed}");
    // Mud that holds the well alone loses nothing.
    fit.well.sections[LAST].mud.weight = 1700.0;
    assert_eq!(ask(&fit, "control/back-pressure-lost").verdict(), Verdict::DoesNotArise);
}

#[test]
fn law_without_power_the_well_is_under_balance_sooner_than_with_pressure_alone_lost() {
    let mut fit = managed();
    *block(&mut fit) = ManagedPressure { leak_rate: Some(0.025), run_down: Some(15.0), ..*block(&mut fit) };
    let Answer::Told(figures) = ask(&fit, "control/back-pressure-lost") else { panic!("no limit is given") };
    let find = |what: &str| figures.iter().find(|figure| figure.name.contains(what)).map(|figure| figure.value);
    let power = find("power").unwrap();
    assert!(power > 0.0 && power < 15.0);
    // While the pumps run their friction holds the well without back pressure.
    assert_eq!(find("choke lost while pumping"), None);
}
