//! Every solver ends, and ends on a root or says that there is none, for muds, holes and flows far beyond what a rig meets.

use crate::circulating::annulus::annulus_gradient;
use crate::circulating::cleaning_flow::{Cleaning, larsen_velocity};
use crate::circulating::laminar::wall_stress;
use crate::circulating::passage::Passage;
use crate::circulating::rheology::{DialConvention, HerschelBulkley, Rheology};
use crate::circulating::slip::{Cutting, Rise, SlipMethod, slip_velocity};
use crate::circulating::viscometer::{FlowModel, MudRheology, Reading};
use crate::{Line, Off, Working};

/// From none to more than any gel, from water to grease, from nearly plastic to Newtonian.
fn muds() -> impl Iterator<Item = HerschelBulkley> {
    [0.0, 1e-3, 5.0, 200.0].into_iter().flat_map(|yield_stress| {
        [1e-5, 1e-3, 0.5, 50.0].into_iter().flat_map(move |consistency| {
            [0.2, 0.6, 1.0].into_iter().map(move |flow_index| HerschelBulkley { yield_stress, consistency, flow_index })
        })
    })
}

const VELOCITIES: [f64; 6] = [0.0, 1e-9, 1e-4, 0.3, 5.0, 60.0];

/// What a working says of its last root: what it was off by, over the velocity that was asked for.
fn missed(working: &Working, velocity: f64) -> f64 {
    let last = working.lines.iter().rev().find_map(|line| match line {
        Line::Root(root) => Some(root.residual),
        _ => None,
    });
    last.map_or(f64::NAN, |residual| residual.abs() / velocity)
}

#[test]
fn law_wall_stress_ends_on_a_root_for_any_mud_and_flow() {
    for curve in muds() {
        for passage in [1e-3, 0.1, 2.0].into_iter().flat_map(|size| {
            let hole = Passage::Annulus { hole_diameter: size, pipe_diameter: 0.9 * size };
            [Passage::Bore { inner_diameter: size }, hole]
        }) {
            for velocity in VELOCITIES {
                let mut working = Working::default();
                let stress = wall_stress(&curve, &passage, velocity, &mut working);
                assert!(stress.is_finite() && stress >= curve.yield_stress * (1.0 - 1e-12), "{curve:?} {passage:?} {velocity}");
                // Nearer to the yield stress than floating point tells stresses apart, the velocity cannot be met to its digits.
                let near = stress <= curve.yield_stress * (1.0 + 1e-6);
                if velocity > 0.0 && !near {
                    assert!(missed(&working, velocity) < 1e-6, "{curve:?} {passage:?} {velocity}");
                }
            }
        }
    }
}

#[test]
fn law_annulus_gradient_ends_for_any_mud_and_flow() {
    for curve in muds() {
        for ratio in [0.05, 0.5, 0.98] {
            for velocity in VELOCITIES {
                let found = annulus_gradient(&curve, 0.3, 0.3 * ratio, velocity, &mut Off);
                assert!(found.is_some_and(|gradient| gradient.is_finite() && gradient >= 0.0), "{curve:?} {ratio} {velocity}");
            }
        }
    }
}

#[test]
fn law_slip_and_cleaning_end_for_any_mud_and_cutting() {
    for HerschelBulkley { yield_stress, consistency, flow_index } in muds() {
        let mud = MudRheology::of(Rheology::HerschelBulkley { yield_stress, consistency, flow_index });
        for size in [1e-4, 6e-3, 0.1] {
            for (density, cutting_density) in [(1000.0, 2600.0), (2300.0, 2600.0), (2600.0, 2600.0)] {
                let cutting = Cutting { size, thickness: size / 2.0, density: cutting_density };
                for annular_velocity in VELOCITIES {
                    let rise = Rise { annular_velocity, width: 0.1, density };
                    for method in [SlipMethod::Moore, SlipMethod::Chien, SlipMethod::Api1995, SlipMethod::WalkerMayes] {
                        let slip = slip_velocity(method, &mud, &cutting, &rise, &mut Off);
                        assert!(slip.is_finite() && slip >= 0.0, "{method:?} {mud:?} {cutting:?} {rise:?}");
                    }
                }
                let cleaning = Cleaning {
                    hole_diameter: 0.3,
                    pipe_diameter: 0.127,
                    density,
                    cutting,
                    bit_diameter: 0.3,
                    penetration_rate: 0.01,
                };
                for inclination in [1.0, 1.3, 1.57] {
                    if let Some(velocity) = larsen_velocity(&mud, &cleaning, inclination, &mut Off) {
                        assert!(velocity.is_finite() && velocity >= 0.0, "{mud:?} {cleaning:?} {inclination}");
                    }
                }
            }
        }
    }
}

/// Readings that lie on no curve: a fit comes out finite, or the mud is refused.
#[test]
fn law_a_fit_ends_for_any_readings() {
    let speeds = [600.0, 300.0, 200.0, 100.0, 6.0, 3.0];
    for dials in [
        [2.0, 1.0, 0.7, 0.4, 0.1, 0.05],
        [300.0, 299.0, 298.0, 297.0, 296.0, 295.0],
        [300.0, 1.0, 1.0, 1.0, 1.0, 1.0],
        [60.0, 60.0, 60.0, 60.0, 60.0, 60.0],
        [60.0, 40.0, 10.0, 30.0, 2.0, 20.0],
        [1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11],
    ] {
        let readings: Vec<Reading> =
            speeds.iter().zip(dials).map(|(speed_rpm, dial)| Reading { speed_rpm: *speed_rpm, dial }).collect();
        for model in
            [FlowModel::HerschelBulkley, FlowModel::Casson, FlowModel::Bingham, FlowModel::PowerLaw, FlowModel::PowerLawInTwo]
        {
            let Ok((mud, _)) = MudRheology::from_readings(&readings, model, DialConvention::Trade, &mut Off) else { continue };
            let loss = wall_stress(&mud.curve, &Passage::Bore { inner_diameter: 0.1 }, 1.0, &mut Off);
            assert!(loss.is_finite() && loss >= 0.0, "{dials:?} {model:?}");
        }
    }
}
