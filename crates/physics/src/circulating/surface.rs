//! Standpipe, hose, swivel and kelly: what the mud loses between the pump and the drill string.
//!
//! The four old combinations of surface equipment carry fittings in their constants; the same lengths summed as plain pipe read 15 to
//! 30 % lower. With a top drive enter the real lengths and diameters.

use super::losses::{Flow, LossMethod, Stretch, friction_loss};
use super::passage::Passage;
use super::viscometer::MudRheology;
use crate::field::{GALLON_PER_MINUTE, POUND_PER_GALLON, PSI};
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[SurfaceLoss::RECORD];

const fn feet(length: f64) -> f64 {
    length * 0.3048
}

const fn inches(diameter: f64) -> f64 {
    diameter * 0.0254
}

/// The four combinations of surface equipment: length and inside diameter of standpipe, hose, swivel and kelly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SurfaceCombination {
    /// 40 ft x 3 in, 45 ft x 2 in, 4 ft x 2 in, 40 ft x 2 1/4 in.
    One,
    /// 40 ft x 3 1/2 in, 55 ft x 2 1/2 in, 5 ft x 2 1/2 in, 40 ft x 3 1/4 in.
    Two,
    /// 45 ft x 4 in, 55 ft x 3 in, 5 ft x 2 1/2 in, 40 ft x 3 1/4 in.
    Three,
    /// 45 ft x 4 in, 55 ft x 3 in, 6 ft x 3 in, 40 ft x 4 in.
    Four,
}

impl SurfaceCombination {
    /// Every combination.
    pub const ALL: [SurfaceCombination; 4] =
        [SurfaceCombination::One, SurfaceCombination::Two, SurfaceCombination::Three, SurfaceCombination::Four];

    /// Standpipe, hose, swivel and kelly: length and inside diameter. [m] (from memory)
    pub const fn parts(self) -> [(f64, f64); 4] {
        let parts = match self {
            SurfaceCombination::One => [(40.0, 3.0), (45.0, 2.0), (4.0, 2.0), (40.0, 2.25)],
            SurfaceCombination::Two => [(40.0, 3.5), (55.0, 2.5), (5.0, 2.5), (40.0, 3.25)],
            SurfaceCombination::Three => [(45.0, 4.0), (55.0, 3.0), (5.0, 2.5), (40.0, 3.25)],
            SurfaceCombination::Four => [(45.0, 4.0), (55.0, 3.0), (6.0, 3.0), (40.0, 4.0)],
        };
        let [a, b, c, d] = parts;
        [(feet(a.0), inches(a.1)), (feet(b.0), inches(b.1)), (feet(c.0), inches(c.1)), (feet(d.0), inches(d.1))]
    }

    /// Constant of the loss formula. [-] (API RP 13D, from memory)
    pub const fn loss_constant(self) -> f64 {
        match self {
            SurfaceCombination::One => 1.0,
            SurfaceCombination::Two => 0.36,
            SurfaceCombination::Three => 0.22,
            SurfaceCombination::Four => 0.15,
        }
    }
}

formula! {
    /// Pressure lost in surface lines of a standard combination, fittings included.
    pub struct SurfaceLoss;
    slug "surface-line-loss";
    equation "Δp = C ρ (Q/100)^1.86";
    law Empirical("psi, ppg, gpm");
    source "API RP 13D (from memory)";
    given {
        /// constant of the combination: 1.0, 0.36, 0.22 or 0.15
        loss_constant "C" Ratio must NON_NEGATIVE valid between(0.15, 1.0);
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
    }
    /// pressure lost
    gives "Δp" Pressure;
    value |f| {
        let flow = f.flow_rate / GALLON_PER_MINUTE / 100.0;
        f.loss_constant * (f.density / POUND_PER_GALLON) * flow.powf(1.86) * PSI
    }
}

/// What lies between pump and drill string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SurfaceLines<'a> {
    /// A standard combination.
    Combination(SurfaceCombination),
    /// Real lines: length and inside diameter of each. [m]
    Pipes(&'a [(f64, f64)]),
}

/// Pressure lost in the surface lines. [Pa]
pub fn surface_loss<R: Recorder>(lines: &SurfaceLines, method: LossMethod, mud: &MudRheology, flow: Flow, rec: &mut R) -> f64 {
    match lines {
        SurfaceLines::Combination(combination) => {
            rec.take(SurfaceLoss { loss_constant: combination.loss_constant(), density: flow.density, flow_rate: flow.rate })
        }
        SurfaceLines::Pipes(pipes) => pipes
            .iter()
            .map(|&(length, inner_diameter)| {
                let stretch = Stretch { passage: Passage::Bore { inner_diameter }, length };
                friction_loss(method, mud, &[stretch], flow, rec)
            })
            .sum(),
    }
}
