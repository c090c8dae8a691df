//! Heat from mud to steel to mud to rock: film coefficients, walls, the slow warming of rock, heat from friction.
//!
//! A transfer coefficient goes with an area: that of the pipe with its outside diameter, that of the hole wall with the
//! diameter of the hole.

use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    MudSpecificHeat::RECORD,
    PrandtlNumber::RECORD,
    TurbulentNusselt::RECORD,
    TransitionNusselt::RECORD,
    FilmCoefficient::RECORD,
    PipeHeatTransfer::RECORD,
    DimensionlessTime::RECORD,
    RockFunction::RECORD,
    RockFunctionInPieces::RECORD,
    RockHeatTransfer::RECORD,
    FrictionHeating::RECORD,
    FrictionHeatingAlong::RECORD,
];

formula! {
    /// Specific heat of a mud from what it is made of.
    pub struct MudSpecificHeat;
    slug "mud-specific-heat";
    equation "c = (fo ρo co + fw ρw cw + fs ρs cs) / (fo ρo + fw ρw + fs ρs)";
    law Homogeneous;
    source "heat balance; base oil 2.0 to 2.1, water 4.18, barite 0.46, light solids 0.85 kJ/(kg.K) are common practice";
    given {
        /// share of oil in the volume
        oil_fraction "fo" Fraction must FRACTION;
        /// density of the oil
        oil_density "ρo" Density must POSITIVE;
        /// specific heat of the oil
        oil_specific_heat "co" SpecificHeat must POSITIVE valid between(1800.0, 2400.0) default 2050.0;
        /// share of water
        water_fraction "fw" Fraction must FRACTION;
        /// density of the water
        water_density "ρw" Density must POSITIVE;
        /// specific heat of the water
        water_specific_heat "cw" SpecificHeat must POSITIVE valid between(2700.0, 4300.0) default 4180.0;
        /// share of solids; there must be some, be it ever so little
        solids_fraction "fs" Fraction must EFFICIENCY;
        /// mean density of the solids
        solids_density "ρs" Density must POSITIVE;
        /// mean specific heat of the solids
        solids_specific_heat "cs" SpecificHeat must POSITIVE valid between(400.0, 900.0) default 460.0;
    }
    /// specific heat of the mud
    gives "c" SpecificHeat;
    value |f| {
        let [oil, water, solids] =
            [f.oil_fraction * f.oil_density, f.water_fraction * f.water_density, f.solids_fraction * f.solids_density];
        let heat = oil * f.oil_specific_heat + water * f.water_specific_heat + solids * f.solids_specific_heat;
        heat / (oil + water + solids)
    }
}

formula! {
    /// Prandtl number: how much slower heat spreads in a fluid than motion.
    pub struct PrandtlNumber;
    slug "prandtl-number";
    equation "Pr = c μ / k";
    law Homogeneous;
    source "definition";
    given {
        /// specific heat
        specific_heat "c" SpecificHeat must POSITIVE;
        /// viscosity; for a mud the effective one at the wall
        viscosity "μ" Viscosity must POSITIVE;
        /// thermal conductivity; 0.6 to 1.0 W/(m.K) is usual for muds (common practice)
        conductivity "k" Conductivity must POSITIVE;
    }
    /// Prandtl number
    gives "Pr" Ratio;
    value |f| f.specific_heat * f.viscosity / f.conductivity
}

/// Nusselt number of laminar flow in a pipe with even heat flow, exact. [-]
pub const LAMINAR_NUSSELT: f64 = 48.0 / 11.0;
/// Reynolds number at which turbulence sets in, and the one from which the turbulent equation is good.
const LAMINAR_TO: f64 = 2300.0;
const TURBULENT_FROM: f64 = 10_000.0;

formula! {
    /// Nusselt number of turbulent flow in a smooth pipe, by Dittus & Boelter.
    pub struct TurbulentNusselt;
    slug "turbulent-nusselt-number";
    equation "Nu = 0.023 Re^0.8 Pr^n";
    law Homogeneous;
    source "Dittus & Boelter 1930 in the form of McAdams; Incropera & DeWitt, Fundamentals of Heat and Mass Transfer (from memory)";
    given {
        /// Reynolds number
        reynolds_number "Re" Ratio must NON_NEGATIVE valid at_least(TURBULENT_FROM);
        /// Prandtl number
        prandtl_number "Pr" Ratio must NON_NEGATIVE valid between(0.6, 160.0);
        /// exponent: 0.4 when the fluid is heated, 0.3 when it is cooled
        prandtl_exponent "n" Ratio must between(0.0, 1.0) valid between(0.3, 0.4) default 0.4;
    }
    /// Nusselt number
    gives "Nu" Ratio;
    value |f| 0.023 * f.reynolds_number.powf(0.8) * f.prandtl_number.powf(f.prandtl_exponent)
}

formula! {
    /// Nusselt number between laminar and turbulent flow: a straight line between both ends.
    pub struct TransitionNusselt;
    slug "transition-nusselt-number";
    equation "Nu = 48/11 + (Nut - 48/11) (Re - 2300)/(10000 - 2300)";
    law Homogeneous;
    source "straight line between the ends, after Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134 (from memory)";
    given {
        /// Reynolds number
        reynolds_number "Re" Ratio must between(LAMINAR_TO, TURBULENT_FROM);
        /// turbulent Nusselt number at the upper end
        turbulent_nusselt "Nut" Ratio must NON_NEGATIVE;
    }
    /// Nusselt number
    gives "Nu" Ratio;
    value |f| {
        let share = (f.reynolds_number - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO);
        LAMINAR_NUSSELT + share * (f.turbulent_nusselt - LAMINAR_NUSSELT)
    }
}

formula! {
    /// Film coefficient from the Nusselt number.
    pub struct FilmCoefficient;
    slug "film-coefficient";
    equation "h = Nu k / d";
    law Homogeneous;
    source "definition of the Nusselt number";
    given {
        /// Nusselt number
        nusselt_number "Nu" Ratio must NON_NEGATIVE;
        /// thermal conductivity of the fluid
        conductivity "k" Conductivity must NON_NEGATIVE;
        /// inside diameter of the pipe, or diameter of the hole less that of the pipe
        hydraulic_diameter "d" Diameter must POSITIVE;
    }
    /// film coefficient
    gives "h" HeatTransfer;
    value |f| f.nusselt_number * f.conductivity / f.hydraulic_diameter
}

formula! {
    /// Heat transfer from the mud in a pipe to the mud around it, through both films and the wall.
    pub struct PipeHeatTransfer;
    slug "pipe-heat-transfer";
    equation "1/U = (do/di)/hi + do ln(do/di)/(2 k) + 1/ho";
    law Homogeneous;
    source "resistances in series, on the outside area; steel 45 W/(m.K) is common practice";
    given {
        /// outside diameter of the pipe
        pipe_diameter "do" Diameter must POSITIVE;
        /// inside diameter of the pipe; not more than the outside
        inner_diameter "di" Diameter must POSITIVE;
        /// film coefficient inside
        inner_film "hi" HeatTransfer must POSITIVE;
        /// film coefficient outside
        outer_film "ho" HeatTransfer must POSITIVE;
        /// thermal conductivity of the wall
        conductivity "k" Conductivity must POSITIVE default 45.0;
    }
    /// heat transfer coefficient on the outside area
    gives "U" HeatTransfer;
    value |f| {
        let ratio = (f.pipe_diameter / f.inner_diameter).max(1.0);
        let wall = 0.5 * f.pipe_diameter * ratio.ln() / f.conductivity;
        1.0 / (ratio / f.inner_film + wall + 1.0 / f.outer_film)
    }
}

formula! {
    /// Time since the rock at the wall began to be heated or cooled, in its own measure.
    pub struct DimensionlessTime;
    slug "dimensionless-time-of-rock";
    equation "tD = 4 k t / (ρ c D²)";
    law Homogeneous;
    source "Fourier number with the radius of the hole";
    given {
        /// thermal conductivity of the rock
        conductivity "k" Conductivity must NON_NEGATIVE;
        /// time since the wall changed its temperature
        duration "t" Time must NON_NEGATIVE;
        /// density of the rock
        density "ρ" Density must POSITIVE;
        /// specific heat of the rock
        specific_heat "c" SpecificHeat must POSITIVE;
        /// diameter of the hole
        hole_diameter "D" Diameter must POSITIVE;
    }
    /// dimensionless time
    gives "tD" Ratio;
    value |f| {
        4.0 * f.conductivity * f.duration / (f.density * f.specific_heat * f.hole_diameter * f.hole_diameter)
    }
}

formula! {
    /// Warming of the rock face by a steady heat flow, in its own measure: without a step.
    ///
    /// Against the exact answer it is 5.2 % low at a dimensionless time of 0.2, 4 % at 10, 0.6 % at 100.
    pub struct RockFunction;
    slug "rock-temperature-function";
    equation "TD = ln(exp(-0.2 tD) + (1.5 - 0.3719 exp(-tD)) √tD)";
    law Homogeneous;
    source "Hasan & Kabir, Fluid Flow and Heat Transfer in Wellbores, SPE 2002 (from memory)";
    given {
        /// dimensionless time
        dimensionless_time "tD" Ratio must NON_NEGATIVE;
    }
    /// dimensionless temperature: 2π k times the warming over the heat flow per length
    gives "TD" Ratio;
    value |f| {
        let t = f.dimensionless_time;
        ((-0.2 * t).exp() + (1.5 - 0.3719 * (-t).exp()) * t.sqrt()).ln()
    }
}

formula! {
    /// Warming of the rock face by a steady heat flow, in its own measure: the older form in two pieces.
    ///
    /// The pieces do not meet at 1.5: the first ends 5.7 % below the exact answer, the second starts 8.0 % below it.
    pub struct RockFunctionInPieces;
    slug "rock-temperature-function-in-pieces";
    equation "TD = 1.1281 √tD (1 - 0.3 √tD) for tD ≤ 1.5, else (0.4063 + ln(tD)/2)(1 + 0.6/tD)";
    law Homogeneous;
    source "Hasan & Kabir, SPE Production Engineering, Aug. 1991 (from memory)";
    given {
        /// dimensionless time
        dimensionless_time "tD" Ratio must NON_NEGATIVE;
    }
    /// dimensionless temperature
    gives "TD" Ratio;
    value |f| {
        let t = f.dimensionless_time;
        if t <= 1.5 { 1.1281 * t.sqrt() * (1.0 - 0.3 * t.sqrt()) } else { (0.4063 + 0.5 * t.ln()) * (1.0 + 0.6 / t) }
    }
}

formula! {
    /// Heat transfer from the mud in the annulus to rock that was heated or cooled for a while.
    pub struct RockHeatTransfer;
    slug "rock-heat-transfer";
    equation "1/h = 1/U + D TD/(2 k)";
    law Homogeneous;
    source "resistances in series; Ramey, J. Pet. Tech. April 1962; Hasan & Kabir 1994 (from memory)";
    given {
        /// heat transfer from the mud to the rock face: film, casing and cement
        face_transfer "U" HeatTransfer must POSITIVE;
        /// diameter of the hole
        hole_diameter "D" Diameter must NON_NEGATIVE;
        /// dimensionless temperature of the rock
        rock_function "TD" Ratio must NON_NEGATIVE;
        /// thermal conductivity of the rock
        conductivity "k" Conductivity must POSITIVE;
    }
    /// heat transfer coefficient on the area of the hole
    gives "h" HeatTransfer;
    value |f| 1.0 / (1.0 / f.face_transfer + 0.5 * f.hole_diameter * f.rock_function / f.conductivity)
}

formula! {
    /// By how much a pressure loss warms the mud that loses it.
    pub struct FrictionHeating;
    slug "friction-heating";
    equation "ΔT = Δp / (ρ c)";
    law Homogeneous;
    source "heat balance";
    given {
        /// pressure lost
        pressure_loss "Δp" Pressure must ANY;
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// specific heat of the mud
        specific_heat "c" SpecificHeat must POSITIVE;
    }
    /// warming
    gives "ΔT" TemperatureChange;
    value |f| f.pressure_loss / (f.density * f.specific_heat)
}

formula! {
    /// By how much friction warms mud along a pipe or annulus that no heat leaves.
    pub struct FrictionHeatingAlong;
    slug "friction-heating-gradient";
    equation "s = G / (ρ c)";
    law Homogeneous;
    source "heat balance";
    given {
        /// pressure lost per length
        gradient "G" PressureGradient must ANY;
        /// mud weight
        density "ρ" Density must POSITIVE;
        /// specific heat of the mud
        specific_heat "c" SpecificHeat must POSITIVE;
    }
    /// warming per length
    gives "s" TemperatureGradient;
    value |f| f.gradient / (f.density * f.specific_heat)
}

/// A fluid that exchanges heat with a wall that it flows along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Film {
    /// Reynolds number with the viscosity below.
    pub reynolds_number: f64,
    /// Effective viscosity at the wall. [Pa·s]
    pub viscosity: f64,
    /// Specific heat. [J/(kg·K)]
    pub specific_heat: f64,
    /// Thermal conductivity. [W/(m·K)]
    pub conductivity: f64,
    /// Inside diameter of the pipe, or diameter of the hole less that of the pipe. [m]
    pub hydraulic_diameter: f64,
    /// Exponent of the Prandtl number: 0.4 when the fluid is heated, 0.3 when it is cooled. [-]
    pub prandtl_exponent: f64,
}

/// Film coefficient in laminar, turbulent and transitional flow, without a step between them. [W/(m²·K)]
///
/// Still mud counts as laminar flow.
pub fn film_coefficient<R: Recorder>(film: &Film, rec: &mut R) -> f64 {
    let Film { reynolds_number, viscosity, specific_heat, conductivity, hydraulic_diameter, prandtl_exponent } = *film;
    let nusselt_number = if reynolds_number <= LAMINAR_TO {
        rec.note(|| "laminar flow: Nusselt number 48/11".to_owned());
        LAMINAR_NUSSELT
    } else {
        let prandtl_number = rec.take(PrandtlNumber { specific_heat, viscosity, conductivity });
        let turbulent =
            TurbulentNusselt { reynolds_number: reynolds_number.max(TURBULENT_FROM), prandtl_number, prandtl_exponent };
        let turbulent_nusselt = rec.take(turbulent);
        if reynolds_number < TURBULENT_FROM {
            rec.take(TransitionNusselt { reynolds_number, turbulent_nusselt })
        } else {
            turbulent_nusselt
        }
    };
    rec.take(FilmCoefficient { nusselt_number, conductivity, hydraulic_diameter })
}
