//! Filtration: what a mud loses through its cake, and how thick the cake grows.
//!
//! Still mud on a flat filter; the cake does not give way to pressure. Moving mud wears the cake off and loses at a steady
//! rate after minutes to an hour (common practice). What a cake does to a pipe that lies in it is with stuck pipe, in
//! [`hoisting`](crate::hoisting).

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    SpurtLoss::RECORD,
    FiltrateAtTime::RECORD,
    FiltrateThroughCake::RECORD,
    CakeThickness::RECORD,
    CakePermeability::RECORD,
    FiltrateAtConditions::RECORD,
];

/// Least by which the second of two times or shares exceeds the first, as a share of it. [-]
const LEAST_STEP: f64 = 1e-6;

/// Area of the standard filter press: 7.1 in². [m²] (API RP 13B-1, from memory)
pub const PRESS_AREA: f64 = 45.8e-4;
/// Pressure on the mud in the standard press: 100 psi. [Pa] (API RP 13B-1, from memory)
pub const PRESS_PRESSURE: f64 = 100.0 * crate::field::PSI;

formula! {
    /// Spurt: what passes the filter before a cake closes it, from two readings.
    pub struct SpurtLoss;
    slug "spurt-loss";
    equation "Vs = (V1 √t2 - V2 √t1) / (√t2 - √t1)";
    law Homogeneous;
    source "V = Vs + C √t; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 2 (from memory)";
    given {
        /// filtrate at the first reading
        filtrate_1 "V1" Filtrate must NON_NEGATIVE;
        /// time of the first reading
        duration_1 "t1" Time must NON_NEGATIVE;
        /// filtrate at the second reading
        filtrate_2 "V2" Filtrate must NON_NEGATIVE;
        /// time of the second reading; later than the first
        duration_2 "t2" Time must POSITIVE;
    }
    /// spurt loss
    gives "Vs" Filtrate;
    value |f| {
        let (early, late) = (f.duration_1.sqrt(), f.duration_2.sqrt());
        (f.filtrate_1 * late - f.filtrate_2 * early) / (late - early).max(LEAST_STEP * late)
    }
}

formula! {
    /// Filtrate at a time, from the spurt and one reading.
    pub struct FiltrateAtTime;
    slug "filtrate-at-time";
    equation "V = Vs + (V1 - Vs) √(t/t1)";
    law Homogeneous;
    source "V = Vs + C √t; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 2 (from memory)";
    given {
        /// spurt loss
        spurt_loss "Vs" Filtrate must ANY;
        /// filtrate at the reading
        filtrate_1 "V1" Filtrate must NON_NEGATIVE;
        /// time of the reading
        duration_1 "t1" Time must POSITIVE;
        /// time asked for; 30 minutes for the API filtrate
        duration "t" Time must NON_NEGATIVE default 1800.0;
    }
    /// filtrate
    gives "V" Filtrate;
    value |f| f.spurt_loss + (f.filtrate_1 - f.spurt_loss) * (f.duration / f.duration_1).sqrt()
}

formula! {
    /// Filtrate through a cake that grows with it, without spurt.
    pub struct FiltrateThroughCake;
    slug "filtrate-through-cake";
    equation "V = A √(2 k Δp (fc/fm - 1) t/μ)";
    law Homogeneous;
    source "Darcy's law and the volume balance of solids; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 2 (from memory)";
    given {
        /// area of the filter
        area "A" Area must NON_NEGATIVE;
        /// permeability of the cake
        permeability "k" Permeability must NON_NEGATIVE;
        /// pressure difference across the cake
        pressure_difference "Δp" Pressure must NON_NEGATIVE;
        /// share of solids in the cake; more than in the mud
        cake_solids "fc" Fraction must EFFICIENCY;
        /// share of solids in the mud
        mud_solids "fm" Fraction must EFFICIENCY;
        /// time
        duration "t" Time must NON_NEGATIVE;
        /// viscosity of the filtrate
        viscosity "μ" Viscosity must POSITIVE;
    }
    /// filtrate
    gives "V" Filtrate;
    value |f| {
        let ratio = (f.cake_solids / f.mud_solids - 1.0).max(0.0);
        f.area * (2.0 * f.permeability * f.pressure_difference * ratio * f.duration / f.viscosity).sqrt()
    }
}

formula! {
    /// Thickness of the cake that a filtrate leaves.
    pub struct CakeThickness;
    slug "cake-thickness";
    equation "h = V fm / (A (fc - fm))";
    law Homogeneous;
    source "volume balance of solids; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 2 (from memory)";
    given {
        /// filtrate without spurt
        filtrate "V" Filtrate must NON_NEGATIVE;
        /// area of the filter
        area "A" Area must POSITIVE;
        /// share of solids in the cake; more than in the mud
        cake_solids "fc" Fraction must EFFICIENCY;
        /// share of solids in the mud
        mud_solids "fm" Fraction must FRACTION;
    }
    /// thickness of the cake
    gives "h" Diameter;
    value |f| {
        let step = (f.cake_solids - f.mud_solids).max(LEAST_STEP * f.cake_solids);
        f.filtrate * f.mud_solids / (f.area * step)
    }
}

formula! {
    /// Permeability of a cake from its thickness and the filtrate that made it.
    pub struct CakePermeability;
    slug "cake-permeability";
    equation "k = V h μ / (2 A Δp t)";
    law Homogeneous;
    source "Darcy's law with a rate that falls as the square root of time; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 2 (from memory)";
    given {
        /// filtrate without spurt
        filtrate "V" Filtrate must NON_NEGATIVE;
        /// thickness of the cake
        cake_thickness "h" Diameter must NON_NEGATIVE;
        /// viscosity of the filtrate
        viscosity "μ" Viscosity must NON_NEGATIVE;
        /// area of the filter
        area "A" Area must POSITIVE;
        /// pressure difference across the cake
        pressure_difference "Δp" Pressure must POSITIVE;
        /// time
        duration "t" Time must POSITIVE;
    }
    /// permeability of the cake
    gives "k" Permeability;
    value |f| 0.5 * f.filtrate * f.cake_thickness * f.viscosity / (f.area * f.pressure_difference * f.duration)
}

formula! {
    /// Filtrate, without spurt, at another pressure, time and viscosity.
    ///
    /// A cake that gives way to pressure makes the filtrate nearly independent of it: for such put the same pressure twice.
    pub struct FiltrateAtConditions;
    slug "filtrate-at-conditions";
    equation "V2 = V1 √(Δp2 t2 μ1/(Δp1 t1 μ2))";
    law Homogeneous;
    source "the square-root law of filtration; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, ch. 2 (from memory)";
    given {
        /// filtrate measured
        filtrate_1 "V1" Filtrate must NON_NEGATIVE;
        /// pressure difference measured at
        pressure_1 "Δp1" Pressure must POSITIVE;
        /// time measured at
        duration_1 "t1" Time must POSITIVE;
        /// viscosity of the filtrate measured at
        viscosity_1 "μ1" Viscosity must NON_NEGATIVE;
        /// pressure difference asked for
        pressure_2 "Δp2" Pressure must NON_NEGATIVE;
        /// time asked for
        duration_2 "t2" Time must NON_NEGATIVE;
        /// viscosity of the filtrate there
        viscosity_2 "μ2" Viscosity must POSITIVE;
    }
    /// filtrate there
    gives "V2" Filtrate;
    value |f| {
        let ratio = (f.pressure_2 / f.pressure_1) * (f.duration_2 / f.duration_1) * (f.viscosity_1 / f.viscosity_2);
        f.filtrate_1 * ratio.sqrt()
    }
}
