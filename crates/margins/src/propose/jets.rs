//! Flow and nozzles for the most impact of the jets or the most hydraulic power at the bit, over whole 32nds of an inch.
//!
//! At one flow both grow as the nozzles get smaller, so that each flow has its smallest nozzles, and the best flow is looked
//! for among them. The closed form is in `physics::circulating::optimum`; the search keeps to what is on the shelf, and to
//! every limit and not to the pump's alone.

use super::circulating::{ROUNDS, passes, smallest_area, turns_of};
use super::ground::{Ground, verdict};
use super::probes::{AREA, FLOW, Grid, Place, Stage};
use super::{Job, Outcome, Step};
use crate::Figure;
use rigwright_physics::Formula;
use rigwright_physics::circulating::bit::{BitPressureLoss, DISCHARGE_COEFFICIENT, HydraulicPower, JetImpact, JetVelocity};
use rigwright_units::Kind;
use rigwright_well::Fit;

/// What the jets are to give most of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JetsAim {
    /// Impact.
    Impact,
    /// Hydraulic power at the bit.
    Power,
}

/// Jets at one flow through one flow area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jets {
    /// Flow rate. [m³/s]
    pub flow_rate: f64,
    /// Total flow area of the nozzles. [m²]
    pub flow_area: f64,
    /// Pressure lost in them. [Pa]
    pub pressure: f64,
    /// Impact. [N]
    pub impact: f64,
    /// Hydraulic power. [W]
    pub power: f64,
}

impl Jets {
    /// Jets of mud of a density.
    pub fn new(density: f64, flow_rate: f64, flow_area: f64) -> Jets {
        let discharge_coefficient = DISCHARGE_COEFFICIENT;
        let pressure = BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient }.value();
        let jet_velocity = JetVelocity { flow_rate, flow_area }.value();
        let impact = JetImpact { density, flow_rate, jet_velocity }.value();
        Jets { flow_rate, flow_area, pressure, impact, power: HydraulicPower { pressure, flow_rate }.value() }
    }

    fn gives(&self, aim: JetsAim) -> f64 {
        match aim {
            JetsAim::Impact => self.impact,
            JetsAim::Power => self.power,
        }
    }
}

/// The flow that gives most, each with the smallest flow area that is allowed at it; the first of equals.
pub fn best_jets(aim: JetsAim, density: f64, allowed: impl IntoIterator<Item = (f64, f64)>) -> Option<Jets> {
    let jets = allowed.into_iter().map(|(flow_rate, flow_area)| Jets::new(density, flow_rate, flow_area));
    jets.reduce(|best, next| if next.gives(aim) > best.gives(aim) { next } else { best })
}

/// The step of a section: with the mud weight, liners and pumps that stand. No limit may come off worse than it stands,
/// unless it keeps all that is wanted.
pub(super) fn step(ground: &Ground, section: usize, (job, aim): (Job, JetsAim), grid: &mut Grid) -> (Step, Option<Fit>) {
    let density = ground.fit.well.sections[section].mud.weight;
    if !grid.missing.is_empty() {
        return (Step::new(job, Some(section), Outcome::Unknown(grid.missing.clone())), None);
    }
    let floors: Vec<f64> = grid.check(grid.here()).iter().map(|one| one.room.min(1.0)).collect();
    for _ in 0..ROUNDS {
        let Some((place, jets)) = best_place(grid, aim, density, &floors) else { break };
        let governing = grid.check(place);
        if governing.iter().zip(&floors).any(|(one, floor)| one.room < *floor) {
            continue;
        }
        let figure = |name, value, kind| Figure { name, value, kind };
        let figures = vec![
            figure("impact of the jets", jets.impact, Kind::Force),
            figure("hydraulic power at the bit", jets.power, Kind::Power),
            figure("pressure at the bit", jets.pressure, Kind::Pressure),
        ];
        let word = verdict(governing.iter().map(|one| one.room).fold(f64::INFINITY, f64::min));
        let turns = turns_of(grid, place);
        let outcome = if turns.is_empty() { Outcome::AsItIs(word) } else { Outcome::Turns(word) };
        let (fit, turns) = ground.turned(&turns, section);
        return (Step { turns, figures, ..Step::new(job, Some(section), outcome) }, Some(fit));
    }
    let outcome = if grid.worn_out() { Outcome::GaveUp } else { Outcome::Nothing };
    (Step::new(job, Some(section), outcome), None)
}

/// The best place on the probes.
fn best_place(grid: &mut Grid, aim: JetsAim, density: f64, floors: &[f64]) -> Option<(Place, Jets)> {
    let here = grid.here();
    let flows: Vec<(usize, f64)> = grid.axes[FLOW].values.iter().copied().enumerate().collect();
    let allowed = flows.into_iter().filter_map(|(at, flow_rate)| {
        let mut place = here;
        place[FLOW] = at;
        let before = [Stage::Pumps, Stage::Weight, Stage::Flow];
        if !before.into_iter().all(|stage| passes(grid, stage, place, floors)) {
            return None;
        }
        let place = smallest_area(grid, place, 0, floors)?;
        Some((flow_rate, place, grid.axes[AREA].values[place[AREA]]))
    });
    let allowed: Vec<(f64, Place, f64)> = allowed.collect();
    let best = best_jets(aim, density, allowed.iter().map(|(flow_rate, _, area)| (*flow_rate, *area)))?;
    allowed.into_iter().find(|one| one.0.total_cmp(&best.flow_rate).is_eq()).map(|(_, place, _)| (place, best))
}
