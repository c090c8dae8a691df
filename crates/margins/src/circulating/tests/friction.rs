//! What the inputs of friction do: joints, stand-off, rotation, surface lines, flow models, methods.

use super::*;
use rigwright_well::{LossMethod, Model, SurfaceCombination, SurfaceWay};

fn changed(change: impl Fn(&mut Fit)) -> Flow {
    let mut fit = plain("ostrick.toml");
    change(&mut fit);
    flow(&fit, 2, Operation::Circulating)
}

#[test]
fn law_joints_add_loss_inside_and_outside() {
    let with = changed(|_| {});
    let without = changed(|fit| {
        for part in fit.well.sections[2].string.iter_mut() {
            part.joint = None;
        }
    });
    let (inside, outside) = (with.string_loss / without.string_loss, with.annular_loss / without.annular_loss);
    // 17 in of joint in every 31 ft: 4.6 % of the length, where the mud flows twice as fast inside.
    assert!(inside > 1.05 && inside < 1.4, "{inside}");
    assert!(outside > 1.01 && outside < 1.2, "{outside}");
    assert!((with.bit_loss - without.bit_loss).abs() < 1e-6);
}

#[test]
fn law_a_pipe_that_lies_aside_loses_less_outside_and_the_same_inside() {
    let middle = changed(|_| {});
    let mut before = middle.annular_loss;
    for standoff in [0.8, 0.6, 0.4] {
        let aside = changed(|fit| fit.well.sections[2].lie.standoff = standoff);
        assert!(aside.annular_loss < before, "{standoff}");
        assert!((aside.string_loss / middle.string_loss - 1.0).abs() < 1e-12);
        before = aside.annular_loss;
    }
    let turning = changed(|fit| fit.well.sections[2].lie.rotation_factor = 1.25);
    assert!((turning.annular_loss / middle.annular_loss - 1.25).abs() < 1e-12);
}

/// By hand, combination 3: 0.22 x 11.5 ppg x (450/100)^1.86 = 41.50 psi.
#[test]
fn law_surface_lines_of_a_standard_combination_by_hand() {
    let combination = SurfaceWay::Combination(SurfaceCombination::Three);
    let found = changed(|fit| fit.rig.surface_lines.way = combination);
    assert!((found.surface_loss / PSI - 0.22 * 11.5 * 4.5f64.powf(1.86)).abs() < 0.01, "{}", found.surface_loss / PSI);
}

/// What was prepared for the section is what the working computes step by step.
#[test]
fn law_prepared_losses_are_those_of_the_working() {
    for (name, section) in [("ostrick.toml", 1), ("ostrick.toml", 2), ("tolvane.toml", 2)] {
        let fit = example(name);
        let basis = Basis::new(&fit);
        let bottom = fit.well.sections[section].bottom;
        let scene = Scene::new(&basis, sweep::situation(&fit, section, Operation::Circulating, bottom, bottom));
        let fast = Flow::solve(&scene, &mut Off);
        let weight = fit.well.sections[section].mud.weight;
        let slow = Flow::with_weight(&scene, weight * (1.0 + 1e-9));
        let sum: f64 = slow.pieces.iter().map(|piece| piece.gradient * piece.annulus.length()).sum();
        assert!((sum / fast.annular_loss - 1.0).abs() < 1e-6, "{name}");
        let mut working = Working::default();
        let shown = Flow::solve(&scene, &mut working);
        assert!((shown.standpipe / fast.standpipe - 1.0).abs() < 1e-12, "{name}");
    }
}

#[test]
fn law_every_model_and_method_gives_a_pressure_of_the_same_order() {
    use LossMethod::*;
    let models = [Model::BestFit, Model::HerschelBulkley, Model::Casson, Model::PowerLaw, Model::PowerLawInTwo, Model::Bingham];
    let usual = changed(|_| {}).standpipe;
    for model in models {
        for method in [Generalised, Exact, PowerLaw1995, BinghamField] {
            let found = changed(|fit| {
                fit.well.sections[2].mud.model = model;
                fit.well.sections[2].mud.losses = method;
            });
            let ratio = found.standpipe / usual;
            assert!((0.7..1.5).contains(&ratio), "{model:?} {method:?}: {ratio}");
        }
    }
}

/// The working of a section says why its flow model was taken.
#[test]
fn law_the_choice_of_the_flow_model_is_in_the_working() {
    let fit = example("ostrick.toml");
    let basis = Basis::new(&fit);
    let mut working = Working::default();
    let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
    scene.flow(&mut working);
    let told = working.lines.iter().any(|line| matches!(line, Line::Note(text) if text.contains("misses the readings least")));
    assert!(told);
}

/// Clear water in turbulent flow: rough walls cost more in pipe and annulus alike, and the working names the factor.
#[test]
fn law_rough_walls_cost_more_inside_and_outside() {
    let brine = |roughness: f64| {
        changed(move |fit| {
            let mud = &mut fit.well.sections[2].mud;
            mud.roughness = roughness;
            for reading in &mut mud.rheogram.readings {
                reading.dial = reading.speed_rpm / 300.0;
            }
        })
    };
    let mut before = brine(0.0);
    for roughness in [46e-6, 150e-6, 500e-6] {
        let rough = brine(roughness);
        assert!(rough.string_loss > before.string_loss && rough.annular_loss > before.annular_loss, "{roughness}");
        assert!((rough.bit_loss - before.bit_loss).abs() < 1e-6);
        before = rough;
    }
    let mut fit = plain("ostrick.toml");
    fit.well.sections[2].mud.roughness = 46e-6;
    let basis = Basis::new(&fit);
    let mut working = Working::default();
    Flow::solve(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut working);
    let chen = |line: &Line| matches!(line, Line::Step { record, .. } if record.slug == "chen-friction-factor");
    assert!(working.lines.iter().any(chen));
}

/// By hand: 500 psi at 600 gpm in water, asked of 11.5 ppg mud at the section's own flow.
#[test]
fn law_a_tool_takes_pressure_by_weight_and_square_of_flow() {
    let own = plain("ostrick.toml").well.sections[2].drilling.flow_rate;
    let found = changed(|fit| {
        let tool = &mut fit.well.sections[2].string[1];
        tool.kind = rigwright_well::PartKind::Tool;
        (tool.tool_loss, tool.tool_flow, tool.tool_weight) = (Some(500.0 * PSI), Some(0.03785411784), Some(8.34 * PPG));
    });
    let by_hand = 500.0 * 11.5 / 8.34 * (own / 0.03785411784).powi(2);
    assert!((found.tool_loss / PSI / by_hand - 1.0).abs() < 1e-8, "{} {by_hand}", found.tool_loss / PSI);
    assert!(found.missing.is_none());
}
