//! Killing without circulating: the volumetric method, lubricate and bleed, bullheading, and stripping into an influx.

use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <VolumetricBleed as Formula>::RECORD,
    <LubricatedPressure as Formula>::RECORD,
    <LubricatedGain as Formula>::RECORD,
    <LubricateBleedTarget as Formula>::RECORD,
    <LubricateBleedByPressure as Formula>::RECORD,
    <BullheadHighestPressure as Formula>::RECORD,
    <StripIntoInfluxRise as Formula>::RECORD,
    <StripIntoInfluxStep as Formula>::RECORD,
    <SnubbingPressure as Formula>::RECORD,
];

formula! {
    /// Mud to bleed at constant casing pressure for each step of pressure, volumetric method.
    ///
    /// The capacity is that of the place where the gas is now: a wrong one lets in more influx.
    pub struct VolumetricBleed;
    slug "volumetric-bleed";
    equation "V = Δp C / (MW g)";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory; item 27 of the IADC WellSharp formula sheet, 27 July 2016";
    given {
        /// step of casing pressure
        pressure_step "Δp" Pressure must NON_NEGATIVE;
        /// capacity of the annulus where the gas is
        capacity "C" VolumePerLength must POSITIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// mud to bleed
    gives "V" Volume;
    value |f| f.pressure_step * f.capacity / (f.mud_weight * f.gravity)
}

formula! {
    /// Surface pressure after mud has been pumped into a closed gas cap.
    pub struct LubricatedPressure;
    slug "lubricated-pressure";
    equation "p₂ = p₁ (1 + V / V_left)";
    law Homogeneous;
    source "Boyle's law at one temperature, absolute pressure";
    given {
        /// surface pressure before
        absolute_pressure "p₁" AbsolutePressure must NON_NEGATIVE;
        /// volume of mud pumped
        volume "V" Volume must NON_NEGATIVE;
        /// volume left to the gas afterwards
        gas_left "V_left" Volume must POSITIVE;
    }
    /// surface pressure after pumping
    gives "p₂" AbsolutePressure;
    value |f| f.absolute_pressure * (1.0 + f.volume / f.gas_left)
}

formula! {
    /// Hydrostatic pressure that lubricated mud adds once it has fallen through the gas.
    pub struct LubricatedGain;
    slug "lubricated-gain";
    equation "Δp = ρ g V / C";
    law Homogeneous;
    source "fluid statics";
    given {
        /// density of the mud pumped
        density "ρ" Density must POSITIVE;
        /// volume of mud pumped
        volume "V" Volume must NON_NEGATIVE;
        /// capacity at the top of the well
        capacity "C" VolumePerLength must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// hydrostatic pressure added
    gives "Δp" Pressure;
    value |f| f.density * f.gravity * f.volume / f.capacity
}

formula! {
    /// Pressure to bleed gas down to after a step of lubricating.
    pub struct LubricateBleedTarget;
    slug "lubricate-bleed-target";
    equation "p₃ = p₁ - Δp";
    law Homogeneous;
    source "bottom-hole pressure kept as it was";
    given {
        /// surface pressure before pumping
        surface_pressure "p₁" Pressure must NON_NEGATIVE;
        /// hydrostatic pressure added
        gain "Δp" Pressure must NON_NEGATIVE;
    }
    /// pressure to bleed down to
    gives "p₃" Pressure;
    value |f| f.surface_pressure - f.gain
}

formula! {
    /// Pressure to bleed down to, by the handbook's pressure form: a cross-check only.
    ///
    /// It is Boyle's law for the gas cap, right only when the surface pressure is just what mud in place of the cap
    /// would weigh. Lower than the target by volume it bleeds too much and invites a new influx: refuse it then.
    pub struct LubricateBleedByPressure;
    slug "lubricate-bleed-by-pressure";
    equation "p₃ = p₁² / p₂";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 3rd ed., from memory";
    given {
        /// surface pressure before pumping
        surface_pressure "p₁" Pressure must NON_NEGATIVE;
        /// surface pressure after pumping
        pumped_pressure "p₂" Pressure must POSITIVE;
    }
    /// pressure to bleed down to
    gives "p₃" Pressure;
    value |f| f.surface_pressure * f.surface_pressure / f.pumped_pressure
}

formula! {
    /// Highest surface pressure while bullheading.
    pub struct BullheadHighestPressure;
    slug "bullhead-highest-pressure";
    equation "p = f p_frac - p_h + Δp";
    law Homogeneous;
    source "fluid statics; the reference depth is the top of the open interval";
    given {
        /// fracture pressure at the reference depth
        fracture_pressure "p_frac" Pressure must NON_NEGATIVE;
        /// share of fracture pressure that may be used
        fraction "f" Fraction must EFFICIENCY default 1.0;
        /// hydrostatic pressure of what stands above the reference depth
        hydrostatic "p_h" Pressure must NON_NEGATIVE;
        /// measured friction, nought if not known
        friction_loss "Δp" Pressure must NON_NEGATIVE default 0.0;
    }
    /// highest surface pressure
    gives "p" Pressure;
    value |f| f.fraction * f.fracture_pressure - f.hydrostatic + f.friction_loss
}

formula! {
    /// Rise of casing pressure when pipe is stripped into an influx left on bottom: to be kept, not bled.
    pub struct StripIntoInfluxRise;
    slug "strip-into-influx-rise";
    equation "Δp = (ρ_mud - ρ_inf) g V (1/C_annulus - 1/C_hole)";
    law Homogeneous;
    source "fluid statics: the influx grows taller round the pipe";
    given {
        /// mud weight
        mud_weight "ρ_mud" Density must POSITIVE;
        /// density of the influx
        influx_density "ρ_inf" Density must NON_NEGATIVE;
        /// volume of the influx
        volume "V" Volume must NON_NEGATIVE;
        /// capacity of the annulus round the pipe
        annulus_capacity "C_annulus" VolumePerLength must POSITIVE;
        /// capacity of the open hole
        hole_capacity "C_hole" VolumePerLength must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// rise of casing pressure
    gives "Δp" Pressure;
    value |f| {
        let taller = f.volume / f.annulus_capacity - f.volume / f.hole_capacity;
        (f.mud_weight - f.influx_density) * f.gravity * taller
    }
}

formula! {
    /// Rise of casing pressure for a length of closed pipe stripped into an influx all of which stands round like pipe.
    ///
    /// To be kept, not bled. Steel and bore are displaced: right only with a float or an inside preventer in the string.
    pub struct StripIntoInfluxStep;
    slug "strip-into-influx-step";
    equation "Δp = (ρ_mud - ρ_inf) g L (C_pipe + D_pipe) / C_annulus";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// mud weight
        mud_weight "ρ_mud" Density must POSITIVE;
        /// density of the influx
        influx_density "ρ_inf" Density must NON_NEGATIVE;
        /// length stripped in
        length "L" Depth must NON_NEGATIVE;
        /// capacity of the pipe's bore
        capacity "C_pipe" VolumePerLength must NON_NEGATIVE;
        /// displacement of the pipe's steel
        displacement "D_pipe" VolumePerLength must NON_NEGATIVE;
        /// capacity of the annulus round the pipe
        annulus_capacity "C_annulus" VolumePerLength must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// rise of casing pressure
    gives "Δp" Pressure;
    value |f| {
        let taller = f.length * (f.capacity + f.displacement) / f.annulus_capacity;
        (f.mud_weight - f.influx_density) * f.gravity * taller
    }
}

formula! {
    /// Well pressure at which pipe no longer goes in by its own weight.
    pub struct SnubbingPressure;
    slug "snubbing-pressure";
    equation "p = (W - F) / A, A = π D²/4";
    law Homogeneous;
    source "statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory, where buoyancy and friction are left out";
    given {
        /// buoyed weight of the pipe that hangs
        weight "W" Force must NON_NEGATIVE;
        /// friction in the preventer
        friction_force "F" Force must NON_NEGATIVE default 0.0;
        /// outside diameter of the pipe in the preventer
        outer_diameter "D" Diameter must POSITIVE;
    }
    /// well pressure
    gives "p" Pressure;
    value |f| (f.weight - f.friction_force) / (std::f64::consts::FRAC_PI_4 * f.outer_diameter * f.outer_diameter)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_the_pressure_form_of_lubricate_and_bleed_is_right_only_for_a_cap_that_mud_can_fill() {
        // A cap whose pressure is just the weight of mud in its place: both targets agree.
        let (density, capacity, height) = (1558.0, 0.024, 457.0);
        let cap = capacity * height;
        let pressure = density * STANDARD_GRAVITY * height;
        let volume = 1.6;
        let gain = LubricatedGain { density, volume, capacity, gravity: STANDARD_GRAVITY }.value();
        let pumped_pressure = LubricatedPressure { absolute_pressure: pressure, volume, gas_left: cap - volume }.value();
        let target = LubricateBleedTarget { surface_pressure: pressure, gain }.value();
        let by_pressure = LubricateBleedByPressure { surface_pressure: pressure, pumped_pressure }.value();
        assert!((target - by_pressure).abs() < 1e-3, "{target} {by_pressure}");
        // With more pressure than that it bleeds too far.
        let over = 1.2 * pressure;
        let pumped_pressure = LubricatedPressure { absolute_pressure: over, volume, gas_left: cap - volume }.value();
        let by_pressure = LubricateBleedByPressure { surface_pressure: over, pumped_pressure }.value();
        assert!(by_pressure < LubricateBleedTarget { surface_pressure: over, gain }.value());
    }

    #[test]
    fn law_bleeding_a_volumetric_step_costs_the_bottom_just_that_step() {
        let (pressure_step, capacity, mud_weight) = (6.9e5, 0.0634, 1618.0);
        let volume = VolumetricBleed { pressure_step, capacity, mud_weight, gravity: STANDARD_GRAVITY }.value();
        assert!((volume / capacity * mud_weight * STANDARD_GRAVITY - pressure_step).abs() < 1e-6);
    }
}
