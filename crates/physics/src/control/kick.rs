//! Arithmetic of a kick: formation pressure, intensity, tolerance in its simplest forms, and the rules of thumb for
//! surface pressure and pit gain. The tolerance with real gas and real geometry is solved in [`super::tolerance`].

use crate::field::{BARREL, FOOT, POUND_PER_GALLON, PSI};
use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <FormationPressure as Formula>::RECORD,
    <ShutInCasingPressure as Formula>::RECORD,
    <KickIntensity as Formula>::RECORD,
    <KickFormationPressure as Formula>::RECORD,
    <AllowableInfluxHeight as Formula>::RECORD,
    <GasVolumeMoved as Formula>::RECORD,
    <InfluxVolumeByMass as Formula>::RECORD,
    <KickToleranceFactor as Formula>::RECORD,
    <HighestFormationPressure as Formula>::RECORD,
    <DetectionVolume as Formula>::RECORD,
    <InfluxAtShutIn as Formula>::RECORD,
    <HighestSurfacePressureEstimate as Formula>::RECORD,
    <HighestPitGainEstimate as Formula>::RECORD,
];

formula! {
    /// Formation pressure from the shut-in drill pipe pressure.
    pub struct FormationPressure;
    slug "formation-pressure-from-sidpp";
    equation "p_f = SIDPP + MW g D";
    law Homogeneous;
    source "fluid statics of the drill string, which holds clean mud";
    given {
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// vertical depth of the bit
        vertical_depth "D" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// formation pressure
    gives "p_f" Pressure;
    value |f| f.drill_pipe_pressure + f.mud_weight * f.gravity * f.vertical_depth
}

formula! {
    /// Shut-in casing pressure from formation pressure and what stands in the annulus.
    pub struct ShutInCasingPressure;
    slug "shut-in-casing-pressure";
    equation "SICP = p_f - (MW h_mud + ρ_inf h_inf) g";
    law Homogeneous;
    source "fluid statics of the annulus";
    given {
        /// formation pressure
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// vertical height of mud in the annulus
        mud_height "h_mud" Depth must NON_NEGATIVE;
        /// density of the influx
        influx_density "ρ_inf" Density must NON_NEGATIVE;
        /// vertical height of the influx
        influx_height "h_inf" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// shut-in casing pressure
    gives "SICP" Pressure;
    value |f| {
        f.formation_pressure - (f.mud_weight * f.mud_height + f.influx_density * f.influx_height) * f.gravity
    }
}

formula! {
    /// Kick intensity: how far formation pressure lies above the mud, as a mud weight.
    pub struct KickIntensity;
    slug "kick-intensity";
    equation "KI = p_f / (g D) - MW";
    law Homogeneous;
    source "definition, common practice";
    given {
        /// formation pressure
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// vertical depth of the formation
        vertical_depth "D" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// kick intensity
    gives "KI" Density;
    value |f| f.formation_pressure / (f.gravity * f.vertical_depth) - f.mud_weight
}

formula! {
    /// Formation pressure of a design kick of a given intensity; zero intensity is a swabbed kick.
    pub struct KickFormationPressure;
    slug "kick-formation-pressure";
    equation "p_f = (MW + KI) g D";
    law Homogeneous;
    source "definition of kick intensity, common practice";
    given {
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// kick intensity
        intensity "KI" Density must ANY;
        /// vertical depth of the formation
        vertical_depth "D" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// formation pressure
    gives "p_f" Pressure;
    value |f| (f.mud_weight + f.intensity) * f.gravity * f.vertical_depth
}

formula! {
    /// Vertical height of gas below a weak point that brings it just to its allowed pressure.
    ///
    /// As tall as the open hole or taller: the weak point sets no limit. Nought or less: no tolerance at all.
    pub struct AllowableInfluxHeight;
    slug "allowable-influx-height";
    equation "H = (p_all + MW g h - p_f) / (Δρ g)";
    law Homogeneous;
    source "Devereux, Practical Well Planning and Drilling Manual, 1998, app. 1, p. 438";
    given {
        /// allowed pressure at the weak point
        allowed_pressure "p_all" Pressure must NON_NEGATIVE;
        /// formation pressure at the bottom
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// vertical height from the bottom up to the weak point
        open_height "h" Depth must NON_NEGATIVE;
        /// mud weight less density of the influx
        density_difference "Δρ" Density must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// vertical height of influx
    gives "H" Depth;
    value |f| {
        let room = f.allowed_pressure + f.mud_weight * f.gravity * f.open_height - f.formation_pressure;
        room / (f.density_difference * f.gravity)
    }
}

formula! {
    /// Volume of the same gas at another pressure and temperature.
    pub struct GasVolumeMoved;
    slug "gas-volume-moved";
    equation "V₂ = V₁ (p₁/p₂) (z₂ T₂)/(z₁ T₁)";
    law Homogeneous;
    source "equation of state of a real gas; Boyle's law when z T is the same";
    given {
        /// volume before
        volume "V₁" Volume must NON_NEGATIVE;
        /// mean absolute pressure before
        absolute_pressure "p₁" AbsolutePressure must POSITIVE;
        /// mean absolute pressure after
        other_pressure "p₂" AbsolutePressure must POSITIVE;
        /// compressibility factor before
        factor "z₁" Ratio must POSITIVE default 1.0;
        /// compressibility factor after
        other_factor "z₂" Ratio must POSITIVE default 1.0;
        /// absolute temperature before
        temperature "T₁" Temperature must POSITIVE default 288.15;
        /// absolute temperature after
        other_temperature "T₂" Temperature must POSITIVE default 288.15;
    }
    /// volume after
    gives "V₂" Volume;
    value |f| {
        let by_pressure = f.volume * (f.absolute_pressure / f.other_pressure);
        by_pressure * (f.other_factor / f.factor) * (f.other_temperature / f.temperature)
    }
}

formula! {
    /// Volume of the same mass of influx at another mean density.
    pub struct InfluxVolumeByMass;
    slug "influx-volume-by-mass";
    equation "V₂ = V₁ ρ₁/ρ₂";
    law Homogeneous;
    source "conservation of mass";
    given {
        /// volume before
        volume "V₁" Volume must NON_NEGATIVE;
        /// mean density before
        density "ρ₁" Density must NON_NEGATIVE;
        /// mean density after
        other_density "ρ₂" Density must POSITIVE;
    }
    /// volume after
    gives "V₂" Volume;
    value |f| f.volume * f.density / f.other_density
}

formula! {
    /// Kick tolerance as an intensity at no influx volume ("zero gain").
    pub struct KickToleranceFactor;
    slug "kick-tolerance-factor";
    equation "KTF = (D_shoe / D) (EMW_shoe - MW)";
    law Homogeneous;
    source "fluid statics; Redmann, SPE Drilling Engineering (Dec 1991), who warns of the name";
    given {
        /// vertical depth of the shoe
        shoe_depth "D_shoe" Depth must NON_NEGATIVE;
        /// vertical depth of the bottom
        vertical_depth "D" Depth must POSITIVE;
        /// equivalent mud weight that the shoe bears
        shoe_weight "EMW_shoe" Density must POSITIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
    }
    /// kick tolerance factor
    gives "KTF" Density;
    value |f| f.shoe_depth / f.vertical_depth * (f.shoe_weight - f.mud_weight)
}

formula! {
    /// Highest formation pressure that can be shut in without influx, from the kick tolerance factor.
    pub struct HighestFormationPressure;
    slug "highest-formation-pressure";
    equation "p_f = (KTF + MW) g D";
    law Homogeneous;
    source "fluid statics";
    given {
        /// kick tolerance factor
        tolerance_factor "KTF" Density must ANY;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// vertical depth of the bottom
        vertical_depth "D" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// highest formation pressure
    gives "p_f" Pressure;
    value |f| (f.tolerance_factor + f.mud_weight) * f.gravity * f.vertical_depth
}

formula! {
    /// Volume at which a kick must be detected so that the influx at shut-in is no more than a design influx.
    pub struct DetectionVolume;
    slug "detection-volume";
    equation "V_detect = V_design / n";
    law Homogeneous;
    source "IPM-ST-WCI-011, Kick tolerance (10 May 2002), one company's standard, as printed in course slide 146 PWC Rev. 6: the influx at shut-in is estimated at about three times that at detection; a setting, not a law";
    given {
        /// design influx at shut-in
        design_volume "V_design" Volume must NON_NEGATIVE;
        /// influx at shut-in over influx at detection
        growth "n" Ratio must ONE_OR_MORE default 3.0;
    }
    /// volume at detection
    gives "V_detect" Volume;
    value |f| f.design_volume / f.growth
}

formula! {
    /// Influx at shut-in: what came in before the alarm, and what flows in until a preventer is closed.
    pub struct InfluxAtShutIn;
    slug "influx-at-shut-in";
    equation "V = V_alarm + q (t_react + t_close)";
    law Homogeneous;
    source "balance of volume at a steady inflow; common practice in naming the times";
    given {
        /// gain at which the alarm goes
        alarm_gain "V_alarm" Volume must NON_NEGATIVE;
        /// inflow
        inflow "q" FlowRate must NON_NEGATIVE;
        /// time from the alarm to the order to close
        reaction_time "t_react" Time must NON_NEGATIVE;
        /// time in which the preventer closes
        closing_time "t_close" Time must NON_NEGATIVE;
    }
    /// influx at shut-in
    gives "V" Volume;
    value |f| f.alarm_gain + f.inflow * (f.reaction_time + f.closing_time)
}

formula! {
    /// Highest surface pressure while a gas kick is circulated out of water-based mud: a screening figure.
    ///
    /// Kill mud all round and weightless gas give √(g z_r p_f V KMW/C), which 0.2 stands for with a ratio z_r of
    /// z T between surface and bottom of 0.77.
    pub struct HighestSurfacePressureEstimate;
    slug "highest-surface-pressure-estimate";
    equation "MSP = 0.2 √(p_f V KMW / C)";
    law Empirical("psi, bbl, ppg, bbl/ft");
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// formation pressure
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// pit gain at shut-in
        pit_gain "V" Volume must NON_NEGATIVE;
        /// kill mud weight
        kill_weight "KMW" Density must POSITIVE;
        /// capacity of the annulus at surface
        capacity "C" VolumePerLength must POSITIVE;
    }
    /// highest surface pressure
    gives "MSP" Pressure;
    value |f| {
        let per_capacity = (f.pit_gain / BARREL) / (f.capacity / (BARREL / FOOT));
        0.2 * ((f.formation_pressure / PSI) * per_capacity * (f.kill_weight / POUND_PER_GALLON)).sqrt() * PSI
    }
}

formula! {
    /// Highest pit gain while a gas kick is circulated out of water-based mud: a screening figure.
    pub struct HighestPitGainEstimate;
    slug "highest-pit-gain-estimate";
    equation "MPG = 4 √(p_f V C / KMW)";
    law Empirical("psi, bbl, ppg, bbl/ft");
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4, from memory";
    given {
        /// formation pressure
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// pit gain at shut-in
        pit_gain "V" Volume must NON_NEGATIVE;
        /// kill mud weight
        kill_weight "KMW" Density must POSITIVE;
        /// capacity of the annulus at surface
        capacity "C" VolumePerLength must POSITIVE;
    }
    /// highest pit gain
    gives "MPG" Volume;
    value |f| {
        let gain = (f.pit_gain / BARREL) * (f.capacity / (BARREL / FOOT));
        4.0 * ((f.formation_pressure / PSI) * gain / (f.kill_weight / POUND_PER_GALLON)).sqrt() * BARREL
    }
}
