//! Control fluid of the preventers: what a bottle can give, how many bottles, what is left after a sequence, and
//! the pressure that closes a ram.
//!
//! Three ways to reckon the nitrogen, and the answer means nothing without the name of its way: ideal gas at one
//! temperature, real gas at one temperature, real gas let down without heat (a sequence in half a minute). The
//! last gives about half of the first. Gas laws take absolute pressure; subsea, the head of water is part of it.
//! Design factors come from the licensed edition of the rule that applies, never from here.

use super::nitrogen::{NitrogenState, nitrogen, nitrogen_expanded, nitrogen_expanded_to_density, nitrogen_of_density};
use crate::{Formula, FormulaRecord, Off, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <UsableFluidIdeal as Formula>::RECORD,
    <UsableFluidReal as Formula>::RECORD,
    <PressureLimitedEfficiency as Formula>::RECORD,
    <VolumeLimitedEfficiency as Formula>::RECORD,
    <AccumulatorBottles as Formula>::RECORD,
    <GasVolumeInBottle as Formula>::RECORD,
    <AccumulatorDemand as Formula>::RECORD,
    <RamClosingPressure as Formula>::RECORD,
];

formula! {
    /// Fluid that a bottle gives between two pressures, ideal gas at one temperature (method A).
    ///
    /// Books put gauge pressures in: 0.3 % too much at 1,000 psi of precharge, more at less.
    pub struct UsableFluidIdeal;
    slug "usable-fluid-ideal";
    equation "V_u = V p_0 (1/p_2 - 1/p_1)";
    law Homogeneous;
    source "Boyle's law; API Spec 16D, method A, from memory";
    given {
        /// gas volume of the bottle when empty of fluid
        bottle_volume "V" FluidVolume must NON_NEGATIVE;
        /// precharge, absolute
        precharge "p_0" AbsolutePressure must NON_NEGATIVE;
        /// lowest pressure that still works, absolute
        minimum "p_2" AbsolutePressure must POSITIVE;
        /// charged pressure, absolute
        charged "p_1" AbsolutePressure must POSITIVE;
    }
    /// usable fluid
    gives "V_u" FluidVolume;
    value |f| f.bottle_volume * (f.precharge / f.minimum - f.precharge / f.charged)
}

formula! {
    /// Fluid that a bottle gives between two densities of its gas (methods B and C).
    ///
    /// The density at the lowest pressure is that at the same temperature (B), or after expansion without heat (C).
    pub struct UsableFluidReal;
    slug "usable-fluid-real";
    equation "V_u = V ρ_0 (1/ρ_2 - 1/ρ_1)";
    law Homogeneous;
    source "conservation of the mass of gas; API Spec 16D, methods B and C, from memory";
    given {
        /// gas volume of the bottle when empty of fluid
        bottle_volume "V" FluidVolume must NON_NEGATIVE;
        /// density of the gas at precharge
        precharge_density "ρ_0" Density must NON_NEGATIVE;
        /// density of the gas at the lowest pressure that still works
        minimum_density "ρ_2" Density must POSITIVE;
        /// density of the gas when charged
        charged_density "ρ_1" Density must POSITIVE;
    }
    /// usable fluid
    gives "V_u" FluidVolume;
    value |f| f.bottle_volume * (f.precharge_density / f.minimum_density - f.precharge_density / f.charged_density)
}

formula! {
    /// Share of a bottle's volume that can be used before pressure gets too low.
    pub struct PressureLimitedEfficiency;
    slug "volumetric-efficiency-pressure-limited";
    equation "VE_p = (ρ_0/ρ_2 - ρ_0/ρ_1) / F_p";
    law Homogeneous;
    source "API Spec 16D, from memory; the design factor from the licensed edition";
    given {
        /// density of the gas at precharge
        precharge_density "ρ_0" Density must NON_NEGATIVE;
        /// density of the gas at the lowest pressure that still works
        minimum_density "ρ_2" Density must POSITIVE;
        /// density of the gas when charged
        charged_density "ρ_1" Density must POSITIVE;
        /// design factor
        design_factor "F_p" Ratio must ONE_OR_MORE;
    }
    /// volumetric efficiency, pressure-limited
    gives "VE_p" Fraction;
    value |f| (f.precharge_density / f.minimum_density - f.precharge_density / f.charged_density) / f.design_factor
}

formula! {
    /// Share of a bottle's volume that can be used before all fluid is out.
    pub struct VolumeLimitedEfficiency;
    slug "volumetric-efficiency-volume-limited";
    equation "VE_v = (1 - ρ_0/ρ_1) / F_v";
    law Homogeneous;
    source "API Spec 16D, from memory; the design factor from the licensed edition";
    given {
        /// density of the gas at precharge
        precharge_density "ρ_0" Density must NON_NEGATIVE;
        /// density of the gas when charged
        charged_density "ρ_1" Density must POSITIVE;
        /// design factor
        design_factor "F_v" Ratio must ONE_OR_MORE;
    }
    /// volumetric efficiency, volume-limited
    gives "VE_v" Fraction;
    value |f| (1.0 - f.precharge_density / f.charged_density) / f.design_factor
}

formula! {
    /// Bottles for a demand; round up.
    pub struct AccumulatorBottles;
    slug "accumulator-bottles";
    equation "n = V_demand / (VE V)";
    law Homogeneous;
    source "API Spec 16D, from memory";
    given {
        /// fluid that the functions take
        demand "V_demand" FluidVolume must NON_NEGATIVE;
        /// volumetric efficiency: the smaller of the two
        efficiency "VE" Fraction must EFFICIENCY;
        /// gas volume of a bottle
        bottle_volume "V" FluidVolume must POSITIVE;
    }
    /// bottles
    gives "n" Count;
    value |f| f.demand / (f.efficiency * f.bottle_volume)
}

formula! {
    /// Volume that the gas of a precharged bottle takes at a density.
    pub struct GasVolumeInBottle;
    slug "gas-volume-in-bottle";
    equation "V_gas = V ρ_0/ρ";
    law Homogeneous;
    source "conservation of the mass of gas";
    given {
        /// gas volume of the bottle when empty of fluid
        bottle_volume "V" FluidVolume must NON_NEGATIVE;
        /// density of the gas at precharge
        precharge_density "ρ_0" Density must NON_NEGATIVE;
        /// density of the gas now
        density "ρ" Density must POSITIVE;
    }
    /// volume of gas
    gives "V_gas" FluidVolume;
    value |f| f.bottle_volume * f.precharge_density / f.density
}

formula! {
    /// Fluid that must be usable: closing volumes with a factor on top.
    pub struct AccumulatorDemand;
    slug "accumulator-demand";
    equation "V_demand = F V_close";
    law Homogeneous;
    source "30 CFR 250.265(d)(1), text of about 1988, asked 1.5 times the volume to close and hold all units; the rule that applies today sets its own";
    given {
        /// design factor on the volume
        design_factor "F" Ratio must ONE_OR_MORE;
        /// volume of all functions of the sequence
        closing_volume "V_close" FluidVolume must NON_NEGATIVE;
    }
    /// fluid that must be usable
    gives "V_demand" FluidVolume;
    value |f| f.design_factor * f.closing_volume
}

formula! {
    /// Control pressure that closes a ram against the well.
    ///
    /// The pressure that the seal needs without well pressure, and subsea heads, come on top. Shearing pressure is the
    /// maker's tested figure for the pipe, never this.
    pub struct RamClosingPressure;
    slug "ram-closing-pressure";
    equation "p = p_well / r + p_seal";
    law Homogeneous;
    source "definition of the closing ratio, API Standard 53; pressure of the seal as in API Spec 16D annex D";
    given {
        /// pressure in the well
        well_pressure "p_well" Pressure must NON_NEGATIVE;
        /// closing ratio
        closing_ratio "r" Ratio must POSITIVE valid between(1.0, 20.0);
        /// control pressure that the seal needs at low well pressure
        seal_pressure "p_seal" Pressure must NON_NEGATIVE default 0.0;
    }
    /// control pressure
    gives "p" Pressure;
    value |f| f.well_pressure / f.closing_ratio + f.seal_pressure
}

/// How the nitrogen is reckoned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AccumulatorMethod {
    /// Ideal gas at one temperature (A).
    Ideal,
    /// Real gas at one temperature (B).
    RealIsothermal,
    /// Real gas let down without heat (C).
    RealAdiabatic,
}

/// Bottles and their pressures. Pressures are absolute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottles {
    /// Gas volume of all bottles together, empty of fluid. [m³]
    pub volume: f64,
    /// Precharge, at the temperature below. [Pa]
    pub precharge: f64,
    /// Charged pressure. [Pa]
    pub charged: f64,
    /// Lowest pressure that still works. [Pa]
    pub minimum: f64,
    /// Temperature of the gas when charged. [K]
    pub temperature: f64,
}

/// The end of a sequence without pumps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AfterSequence {
    /// Absolute pressure left. [Pa]
    Pressure(f64),
    /// The bottles run empty: so much fluid is in them, and no more. [m³]
    Empty(f64),
}

impl Bottles {
    /// Usable fluid down to the minimum pressure, never more than the bottles hold. `None` outside the range of the
    /// equation of state. [m³]
    pub fn usable<R: Recorder>(&self, rec: &mut R, method: AccumulatorMethod) -> Option<f64> {
        let Bottles { volume, precharge, charged, minimum, .. } = *self;
        // Below precharge a bottle holds no fluid.
        let lowest = minimum.max(precharge);
        if minimum < precharge {
            rec.note(|| "The lowest working pressure lies below precharge: the bottles run empty first.".into());
        }
        if method == AccumulatorMethod::Ideal {
            return (charged >= lowest && precharge > 0.0)
                .then(|| rec.take(UsableFluidIdeal { bottle_volume: volume, precharge, minimum: lowest, charged }));
        }
        let (first, full) = (self.at_precharge(rec)?, self.at_charge(rec)?);
        let low = match method {
            AccumulatorMethod::RealAdiabatic => {
                // The cold gas may still be above the lowest pressure when all fluid is out.
                let empty = nitrogen_expanded_to_density(&mut Off, full, first.density);
                if empty.is_some_and(|state| state.pressure >= minimum) {
                    rec.note(|| "All fluid is out before the pressure falls to the lowest that works.".into());
                    first.density
                } else {
                    nitrogen_expanded(rec, full, minimum)?.density
                }
            }
            AccumulatorMethod::Ideal | AccumulatorMethod::RealIsothermal => nitrogen(rec, lowest, self.temperature)?.density,
        };
        Some(rec.take(UsableFluidReal {
            bottle_volume: volume,
            precharge_density: first.density,
            minimum_density: low,
            charged_density: full.density,
        }))
    }

    /// Fluid in the charged bottles. [m³]
    pub fn fluid<R: Recorder>(&self, rec: &mut R) -> Option<f64> {
        let (first, full) = (self.at_precharge(rec)?, self.at_charge(rec)?);
        let gas =
            rec.take(GasVolumeInBottle { bottle_volume: self.volume, precharge_density: first.density, density: full.density });
        Some(self.volume - gas)
    }

    /// Pressure left when a sequence has taken its fluid, without pumps, by a method for real gas. `None` outside the
    /// range of the equation of state.
    pub fn after<R: Recorder>(&self, rec: &mut R, method: AccumulatorMethod, taken: f64) -> Option<AfterSequence> {
        if method == AccumulatorMethod::Ideal {
            let gas = self.volume * self.precharge / self.charged;
            let room = self.volume - gas;
            let end = self.charged * gas / (gas + taken);
            return Some(if taken > room { AfterSequence::Empty(room) } else { AfterSequence::Pressure(end) });
        }
        let (first, full) = (self.at_precharge(rec)?, self.at_charge(rec)?);
        let fluid = self.fluid(rec)?;
        if taken > fluid {
            return Some(AfterSequence::Empty(fluid));
        }
        let density = first.density * self.volume / (self.volume - fluid + taken);
        let end = match method {
            AccumulatorMethod::RealAdiabatic => nitrogen_expanded_to_density(rec, full, density)?,
            AccumulatorMethod::Ideal | AccumulatorMethod::RealIsothermal => nitrogen_of_density(rec, density, self.temperature)?,
        };
        Some(AfterSequence::Pressure(end.pressure))
    }

    fn at_precharge<R: Recorder>(&self, rec: &mut R) -> Option<NitrogenState> {
        nitrogen(rec, self.precharge, self.temperature).filter(|state| state.density > 0.0)
    }

    fn at_charge<R: Recorder>(&self, rec: &mut R) -> Option<NitrogenState> {
        nitrogen(rec, self.charged, self.temperature).filter(|_| self.charged >= self.minimum.max(self.precharge))
    }
}

/// Precharge at another temperature: the gas keeps its density, since the bottle keeps its volume. `None` outside the
/// range of the equation of state. [Pa, absolute]
pub fn precharge_at<R: Recorder>(rec: &mut R, precharge: f64, temperature: f64, other: f64) -> Option<f64> {
    let density = nitrogen(rec, precharge, temperature)?.density;
    nitrogen_of_density(rec, density, other).map(|state| state.pressure)
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOTTLES: Bottles = Bottles { volume: 0.0379, precharge: 7.0e6, charged: 2.08e7, minimum: 8.4e6, temperature: 294.26 };

    #[test]
    fn law_each_step_towards_reality_gives_less() {
        let usable = |method| BOTTLES.usable(&mut Off, method).unwrap();
        let ideal = usable(AccumulatorMethod::Ideal);
        let isothermal = usable(AccumulatorMethod::RealIsothermal);
        let adiabatic = usable(AccumulatorMethod::RealAdiabatic);
        assert!(ideal > isothermal && isothermal > adiabatic && adiabatic > 0.0);
    }

    #[test]
    fn law_taking_the_usable_fluid_leaves_the_minimum_pressure() {
        for method in [AccumulatorMethod::Ideal, AccumulatorMethod::RealIsothermal, AccumulatorMethod::RealAdiabatic] {
            let usable = BOTTLES.usable(&mut Off, method).unwrap();
            let Some(AfterSequence::Pressure(left)) = BOTTLES.after(&mut Off, method, usable) else {
                panic!("{method:?} runs empty")
            };
            assert!((left / BOTTLES.minimum - 1.0).abs() < 1e-6, "{method:?}: {left}");
        }
    }

    #[test]
    fn law_real_methods_meet_the_ideal_one_in_thin_gas() {
        let thin = Bottles { precharge: 7e3, charged: 2.08e4, minimum: 8.4e3, ..BOTTLES };
        let ideal = thin.usable(&mut Off, AccumulatorMethod::Ideal).unwrap();
        let real = thin.usable(&mut Off, AccumulatorMethod::RealIsothermal).unwrap();
        assert!((real / ideal - 1.0).abs() < 1e-3);
        // Without heat: p V^γ is constant, γ 1.4.
        let adiabatic = thin.usable(&mut Off, AccumulatorMethod::RealAdiabatic).unwrap();
        let gas = thin.volume * thin.precharge / thin.charged;
        let expected = gas * ((thin.charged / thin.minimum).powf(1.0 / 1.4) - 1.0);
        assert!((adiabatic / expected - 1.0).abs() < 5e-3, "{adiabatic} {expected}");
    }

    #[test]
    fn law_bottles_never_give_more_than_they_hold() {
        let low = Bottles { minimum: 1e6, ..BOTTLES };
        let fluid = low.fluid(&mut Off).unwrap();
        for method in [AccumulatorMethod::RealIsothermal, AccumulatorMethod::RealAdiabatic] {
            assert!(low.usable(&mut Off, method).unwrap() <= fluid * (1.0 + 1e-12));
            let Some(AfterSequence::Empty(held)) = low.after(&mut Off, method, fluid * 1.01) else { panic!("{method:?}") };
            assert!((held - fluid).abs() < 1e-12);
        }
    }

    #[test]
    fn law_precharge_comes_back_with_its_temperature() {
        let cold = precharge_at(&mut Off, 7e6, 294.0, 277.0).unwrap();
        assert!(cold < 7e6);
        let again = precharge_at(&mut Off, cold, 277.0, 294.0).unwrap();
        assert!((again - 7e6).abs() < 1.0);
    }
}
