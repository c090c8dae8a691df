//! Pipe lying aside in its hole: how much less an eccentric annulus loses than a concentric one at the same flow.
//!
//! Eccentricity is the offset of the centres over the offset at which pipe and wall touch. A ratio multiplies the
//! concentric loss; nothing here applies it unasked. The correlations serve all diameter ratios; the narrow gap and
//! the Newtonian series are exact and hold them in check.

use super::rheology::{LARGEST_INDEX, LEAST_INDEX};
use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    EccentricLaminarRatio::RECORD,
    EccentricTurbulentRatio::RECORD,
    NarrowGapLaminarRatio::RECORD,
    NarrowGapTurbulentRatio::RECORD,
    EccentricNewtonianFlow::RECORD,
];

/// Largest eccentricity that the exact forms are summed for: the series slows down as pipe and wall meet. [-]
const LARGEST_ECCENTRICITY: f64 = 0.99;

formula! {
    /// Laminar loss of an eccentric annulus over that of the concentric one, power-law mud.
    ///
    /// Within 1.3 % of the exact Newtonian series for diameter ratios of 0.3 and 0.5, 5 % low at 0.9.
    pub struct EccentricLaminarRatio;
    slug "eccentric-laminar-ratio";
    equation "R = 1 - 0.072 (e/n) k^0.8454 - 1.5 e² √n k^0.1852 + 0.96 e³ √n k^0.2527";
    law Homogeneous;
    source "Haciislamoglu & Langlinais, J. Energy Resour. Technol. 112 (1990) 163 (coefficients from memory)";
    given {
        /// eccentricity
        eccentricity "e" Ratio must between(0.0, 1.0) valid between(0.0, 0.95);
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(0.0, 1.0) valid between(0.3, 0.9);
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.4, 1.0);
    }
    /// ratio of the losses
    gives "R" Ratio;
    value |f| fitted(f.eccentricity, f.diameter_ratio, f.flow_index, (0.072, 1.5, 0.96))
}

formula! {
    /// Turbulent loss of an eccentric annulus over that of the concentric one, power-law mud.
    ///
    /// 2 to 6 % low in a narrow gap with an index of 1, within 2 % at a diameter ratio of 0.6; otherwise unchecked.
    pub struct EccentricTurbulentRatio;
    slug "eccentric-turbulent-ratio";
    equation "R = 1 - 0.048 (e/n) k^0.8454 - 2/3 e² √n k^0.1852 + 0.285 e³ √n k^0.2527";
    law Homogeneous;
    source "Haciislamoglu & Langlinais, J. Energy Resour. Technol. 112 (1990) 163 (coefficients from memory)";
    given {
        /// eccentricity
        eccentricity "e" Ratio must between(0.0, 1.0) valid between(0.0, 0.95);
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(0.0, 1.0) valid between(0.3, 0.9);
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.4, 1.0);
    }
    /// ratio of the losses
    gives "R" Ratio;
    value |f| fitted(f.eccentricity, f.diameter_ratio, f.flow_index, (0.048, 2.0 / 3.0, 0.285))
}

formula! {
    /// Laminar loss of an eccentric narrow annulus over that of the concentric one, exactly: slots side by side.
    pub struct NarrowGapLaminarRatio;
    slug "narrow-gap-laminar-ratio";
    equation "R = (mean of (1 + e cos t)^(2 + 1/n))^(-n)";
    law Homogeneous;
    source "slots of local height in parallel; for an index of 1 it is 1/(1 + 1.5 e²)";
    given {
        /// eccentricity
        eccentricity "e" Ratio must between(0.0, LARGEST_ECCENTRICITY);
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX);
    }
    /// ratio of the losses
    gives "R" Ratio;
    value |f| mean_height(f.eccentricity, 2.0 + 1.0 / f.flow_index).powf(-f.flow_index)
}

formula! {
    /// Turbulent loss of an eccentric narrow annulus over that of the concentric one: slots side by side, factor by the power of a quarter.
    pub struct NarrowGapTurbulentRatio;
    slug "narrow-gap-turbulent-ratio";
    equation "R = (mean of (1 + e cos t)^(12/7))^(-7/4)";
    law Homogeneous;
    source "slots of local height in parallel, friction factor of Blasius";
    given {
        /// eccentricity
        eccentricity "e" Ratio must between(0.0, LARGEST_ECCENTRICITY);
    }
    /// ratio of the losses
    gives "R" Ratio;
    value |f| mean_height(f.eccentricity, 12.0 / 7.0).powf(-1.75)
}

formula! {
    /// Laminar flow of a Newtonian fluid in an eccentric annulus over that in the concentric one at equal loss, exactly.
    pub struct EccentricNewtonianFlow;
    slug "eccentric-newtonian-flow-ratio";
    equation "Qe/Qc = (1 - k⁴ - 4 c² M²/(β - α) - 8 c² M² Σ m exp(-m (β + α))/sinh(m (β - α))) / (1 - k⁴ - (1 - k²)²/ln(1/k)), c = e (1 - k), M, α, β from c and k";
    law Homogeneous;
    source "Piercy, Hooper & Winny 1933, as in White, Viscous Fluid Flow, eccentric annulus";
    given {
        /// eccentricity
        eccentricity "e" Ratio must between(0.001, LARGEST_ECCENTRICITY);
        /// pipe diameter over hole diameter
        diameter_ratio "k" Ratio must between(0.001, 0.99);
    }
    /// ratio of the flows
    gives "Qe/Qc" Ratio;
    value |f| {
        let k = f.diameter_ratio;
        let concentric = 1.0 - k.powi(4) - (1.0 - k * k).powi(2) / -k.ln();
        piercy(k, f.eccentricity * (1.0 - k)) / concentric
    }
}

/// The common form of the two correlations.
fn fitted(e: f64, k: f64, n: f64, (first, second, third): (f64, f64, f64)) -> f64 {
    let root = n.sqrt();
    1.0 - first * e / n * k.powf(0.8454) - second * e * e * root * k.powf(0.1852) + third * e.powi(3) * root * k.powf(0.2527)
}

/// Mean of (1 + e cos t)^power round the annulus. The rule of equal steps converges faster than any power here.
fn mean_height(e: f64, power: f64) -> f64 {
    const STEPS: u32 = 256;
    let angle = |at: u32| 2.0 * PI * f64::from(at) / f64::from(STEPS);
    (0..STEPS).map(|at| (1.0 + e * angle(at).cos()).powf(power)).sum::<f64>() / f64::from(STEPS)
}

/// Flow of a Newtonian fluid between circles of radius 1 and k whose centres are c apart, times 8 μ/(π G).
fn piercy(k: f64, c: f64) -> f64 {
    let distance = (1.0 - k * k + c * c) / (2.0 * c);
    // F² - 1 without the difference of near-equal numbers.
    let square = (distance - 1.0) * (distance + 1.0);
    let m = square.sqrt();
    let angle = |from: f64| 0.5 * ((from + m) / (from - m)).ln();
    let (alpha, beta) = (angle(distance), angle(distance - c));
    let mut series = 0.0;
    for order in 1..2000 {
        let order = f64::from(order);
        // exp(-m(β + α))/sinh(m(β - α)), written so that nothing overflows.
        let term = 2.0 * order * (-2.0 * order * beta).exp() / (1.0 - (-2.0 * order * (beta - alpha)).exp());
        series += term;
        if term < 1e-16 * series {
            break;
        }
    }
    1.0 - k.powi(4) - 4.0 * c * c * square / (beta - alpha) - 8.0 * c * c * square * series
}
