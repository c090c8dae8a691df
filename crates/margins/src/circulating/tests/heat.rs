//! Mud under pressure and heat: against the full march of the column, against a march in time, and at its limits.

use super::*;
use crate::fields::column::{Columns, Leg};
use crate::fields::heat::{Heat, composition};
use rigwright_physics::STANDARD_GRAVITY;
use rigwright_physics::circulating::density::salts::Salt;
use rigwright_physics::circulating::density::still::{ColumnTop, DepthTemperature, still_column};
use rigwright_well::Retort;

const OIL: Retort = Retort {
    oil: 0.56,
    water: 0.14,
    chlorides: None,
    salt: Salt::CalciumChloride,
    salt_fraction: Some(0.25),
    oil_density: 830.0,
    light_density: 2600.0,
    heavy_density: 4200.0,
    most_light: 0.06,
};

/// The example with an oil mud in its last section, or a water mud.
fn hot(retort: Option<Retort>) -> Fit {
    let mut fit = example("tolvane.toml");
    for section in &mut fit.well.sections {
        section.mud.retort = retort;
        section.mud.specific_heat = Some(1700.0);
        section.drilling.inlet_temperature = Some(313.15);
    }
    fit
}

fn last(fit: &Fit, operation: Operation, hole: f64) -> rigwright_well::Situation {
    sweep::situation(fit, fit.well.sections.len() - 1, operation, hole, hole)
}

/// The prepared columns against a march by steps of 100 ft at the same temperatures, at hole depths between the prepared ones.
#[test]
fn law_prepared_columns_weigh_what_a_march_weighs() {
    let fit = hot(Some(OIL));
    let basis = Basis::new(&fit);
    let path = &fit.well.path;
    let end = fit.well.total_depth();
    let mud = composition(&fit.well.sections.last().unwrap().mud, &mut Off).unwrap();
    for operation in [Operation::PullingOut, Operation::Connection] {
        for hole in [end, 0.9 * end, 0.72 * end] {
            let scene = Scene::new(&basis, last(&fit, operation, hole));
            let heat = scene.prepared_flow().heat.as_ref().unwrap();
            let columns: Columns = heat.columns(&scene.situation);
            let count = 60;
            let profile: Vec<DepthTemperature> = (0..=count)
                .map(|at| {
                    let depth = hole * f64::from(at) / f64::from(count);
                    let temperature = columns.temperature(Leg::Annulus, depth);
                    DepthTemperature { vertical_depth: path.vertical_depth_at(depth), temperature }
                })
                .collect();
            let top = ColumnTop { pressure: 0.0, gravity: STANDARD_GRAVITY };
            let march = still_column(&mud, &profile, top, &mut Off).unwrap();
            for (at, point) in march.iter().enumerate().skip(6) {
                let depth = hole * at as f64 / f64::from(count);
                let prepared = columns.weight(Leg::Annulus, depth) * mud.reference_density();
                // The prepared column also feels friction, which squeezes it: about 4e-10 per pascal of some 2 MPa. 0.01 ppg is 1.2 kg/m³.
                assert!((prepared - point.equivalent_density).abs() < 1.2, "{operation:?} {hole} {depth}: {prepared} {point:?}");
            }
        }
    }
}

/// The closed form's mean sizes and rock function against cells with their own sizes and rock in rings, from rest.
#[test]
fn law_the_closed_form_agrees_with_a_march_in_time() {
    for name in ["ostrick.toml", "tolvane.toml"] {
        let mut fit = example(name);
        let section = fit.well.sections.len() - 1;
        fit.well.sections[section].mud.specific_heat = Some(1700.0);
        fit.well.sections[section].drilling.inlet_temperature = Some(313.15);
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, section));
        let heat = Heat::new(&scene).unwrap();
        let bottom = fit.well.sections[section].bottom;
        let steady = heat.circulation(bottom, &mut Off).unwrap();
        let rows = steady.profile(&[0.0, bottom], &mut Off);
        let [bit, line] = heat.march(&steady).unwrap();
        // The rock function alone is 4 % low at this time, and mean sizes are no real ones: 5 % of the rock's 90 to 165 K above ground.
        let tolerance = 0.05 * (fit.well.geotherm.gradient * bottom);
        assert!((rows[1].annulus - bit).abs() < tolerance, "{name}: {} and {bit}", rows[1].annulus);
        assert!((rows[0].annulus - line).abs() < tolerance, "{name}: {} and {line}", rows[0].annulus);
    }
}

#[test]
fn law_friction_warms_and_can_be_left_out() {
    let mut fit = hot(None);
    let hottest = |fit: &Fit| told(&ask(fit, "circulating/temperature", 2, Operation::Drilling), "hottest");
    let with = hottest(&fit);
    fit.well.heat.friction = false;
    let without = hottest(&fit);
    assert!(with > without + 1.0 && with < without + 40.0, "{with} {without}");
}

/// Heat swells the mud more than pressure squeezes it in this hot well; pressure alone makes it heavier.
#[test]
fn law_heat_makes_lighter_and_pressure_heavier() {
    let bottom = |fit: &Fit| judged(&ask(fit, "circulating/overbalance", 2, Operation::PullingOut)).limit.capacity;
    let (plain, warm) = (bottom(&hot(None)), bottom(&hot(Some(OIL))));
    assert!(warm < plain - 5.0 && warm > 0.97 * plain, "{warm} {plain}");
    let mut cold = hot(Some(OIL));
    cold.well.geotherm.gradient = 0.0;
    cold.well.geotherm.surface = cold.well.sections[2].mud.weighed_at;
    let cold = bottom(&cold);
    assert!(cold > plain + 5.0 && cold < 1.03 * plain, "{cold} {plain}");
}

#[test]
fn law_mud_of_unknown_make_keeps_its_weight_and_says_so() {
    let fit = hot(None);
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, last(&fit, Operation::Connection, fit.well.total_depth()));
    let mut working = Working::default();
    (question("circulating/overbalance").unwrap().show)(&scene, &mut working);
    assert!(
        working
            .lines
            .iter()
            .any(|line| matches!(line, Line::Note(text) if text.contains("does not say what the mud is made of")))
    );
    let weight = fit.well.sections[2].mud.weight;
    assert!(scene.flow(&mut Off).pieces.iter().all(|piece| (piece.density / weight - 1.0).abs() < 1e-12));
}

#[test]
fn law_the_verdict_flips_where_the_mud_bears_its_heat() {
    let mut fit = hot(Some(OIL));
    let hottest = told(&ask(&fit, "circulating/temperature", 2, Operation::Drilling), "hottest");
    fit.well.sections[2].mud.temperature_limit = Some(hottest + 1e-6);
    assert_eq!(ask(&fit, "circulating/temperature", 2, Operation::Drilling).verdict(), Verdict::Thin);
    fit.well.sections[2].mud.temperature_limit = Some(hottest - 1e-6);
    assert_eq!(ask(&fit, "circulating/temperature", 2, Operation::Drilling).verdict(), Verdict::Short);
    fit.well.sections[2].drilling.inlet_temperature = None;
    let missing = ask(&fit, "circulating/temperature", 2, Operation::Drilling);
    assert_eq!(missing, Answer::Missing(vec!["section[].drilling.inlet_temperature"]));
}

#[test]
fn law_equivalent_density_of_still_mud_of_one_weight_is_that_weight() {
    let fit = plain("ostrick.toml");
    let answer = ask(&fit, "circulating/equivalent-density", 2, Operation::Drilling);
    assert!((told(&answer, "at the bottom, pumps off") / PPG - 11.5).abs() < 1e-6);
    assert!(told(&answer, "at the bottom, drilling") > told(&answer, "at the bottom, pumps off"));
}
