//! How much pressure the well bears: shoe tests, allowable annular surface pressure, burst along the casing,
//! and the pressure that may be met at the wellhead.
//!
//! Surface pressures are gauge. A column reaches from the datum to the depth named, so air gap and water are in it
//! when the datum is a rotary table offshore. Margins: taken off fracture pressure for what may be done, put on
//! top of it for what may be met.

use crate::{Formula, FormulaRecord, Recorder, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <LeakOffPressure as Formula>::RECORD,
    <LeakOffWeight as Formula>::RECORD,
    <IntegrityTestPressure as Formula>::RECORD,
    <Maasp as Formula>::RECORD,
    <MaaspFlowing as Formula>::RECORD,
    <BurstSurfacePressure as Formula>::RECORD,
    <CollapseSurfacePressure as Formula>::RECORD,
    <GasToSurfacePressure as Formula>::RECORD,
    <ShoeFractureSurfacePressure as Formula>::RECORD,
    <PartialEvacuationPressure as Formula>::RECORD,
];

formula! {
    /// Pressure at the shoe when it leaks off.
    ///
    /// For a test pumped slowly down the annulus or with the string bridged; otherwise gel and friction come off.
    pub struct LeakOffPressure;
    slug "leak-off-pressure";
    equation "p_shoe = p_LO + ρ g D_shoe";
    law Homogeneous;
    source "fluid statics; API RP 59 sec. 3.11 (leak-off tests)";
    given {
        /// surface pressure at leak-off
        surface_pressure "p_LO" Pressure must NON_NEGATIVE;
        /// mud weight during the test
        mud_weight "ρ" Density must POSITIVE;
        /// vertical depth of the shoe
        shoe_depth "D_shoe" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure at the shoe
    gives "p_shoe" Pressure;
    value |f| f.surface_pressure + f.mud_weight * f.gravity * f.shoe_depth
}

formula! {
    /// Equivalent mud weight of a shoe test: leak-off, or integrity when pumping stopped before.
    pub struct LeakOffWeight;
    slug "leak-off-weight";
    equation "EMW = MW + p_test / (g D_shoe)";
    law Homogeneous;
    source "fluid statics; API RP 59 sec. 3.11 (leak-off tests)";
    given {
        /// surface pressure of the test
        surface_pressure "p_test" Pressure must NON_NEGATIVE;
        /// mud weight during the test
        mud_weight "MW" Density must POSITIVE;
        /// vertical depth of the shoe
        shoe_depth "D_shoe" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// equivalent mud weight that the shoe bears
    gives "EMW" Density;
    value |f| f.mud_weight + f.surface_pressure / (f.gravity * f.shoe_depth)
}

formula! {
    /// Surface pressure of an integrity test to an equivalent mud weight.
    pub struct IntegrityTestPressure;
    slug "integrity-test-pressure";
    equation "p_FIT = (EMW_target - MW) g D_shoe";
    law Homogeneous;
    source "fluid statics";
    given {
        /// equivalent mud weight to be reached
        target_weight "EMW_target" Density must POSITIVE;
        /// mud weight during the test
        mud_weight "MW" Density must POSITIVE;
        /// vertical depth of the shoe
        shoe_depth "D_shoe" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// surface pressure to pump to
    gives "p_FIT" Pressure;
    value |f| (f.target_weight - f.mud_weight) * f.gravity * f.shoe_depth
}

formula! {
    /// Maximum allowable annular surface pressure with the well still, by the strength of the shoe.
    ///
    /// It changes with every change of mud weight, and ceases to govern once the whole influx is above the shoe.
    pub struct Maasp;
    slug "maasp";
    equation "MAASP = (EMW_shoe - MW) g D_shoe";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// equivalent mud weight that the shoe bears
        shoe_weight "EMW_shoe" Density must POSITIVE;
        /// mud weight in the hole
        mud_weight "MW" Density must POSITIVE;
        /// vertical depth of the shoe
        shoe_depth "D_shoe" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// maximum allowable annular surface pressure, still
    gives "MAASP" Pressure;
    value |f| (f.shoe_weight - f.mud_weight) * f.gravity * f.shoe_depth
}

formula! {
    /// Maximum allowable pressure at the choke while circulating.
    pub struct MaaspFlowing;
    slug "maasp-flowing";
    equation "MAASP_flowing = MAASP - Δp_annulus - Δp_choke_line";
    law Homogeneous;
    source "fluid statics";
    given {
        /// maximum allowable annular surface pressure, still
        maasp "MAASP" Pressure must ANY;
        /// friction loss in the annulus from shoe to surface
        annular_loss "Δp_annulus" Pressure must NON_NEGATIVE;
        /// friction loss in the choke line
        choke_line_loss "Δp_choke_line" Pressure must NON_NEGATIVE default 0.0;
    }
    /// maximum allowable pressure at the choke
    gives "MAASP_flowing" Pressure;
    value |f| f.maasp - f.annular_loss - f.choke_line_loss
}

formula! {
    /// Surface pressure that brings the casing to the allowed share of its burst strength at one depth.
    pub struct BurstSurfacePressure;
    slug "burst-surface-pressure";
    equation "p = f p_burst - (ρ_in - ρ_out) g D";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// burst strength of the casing there
        burst "p_burst" Pressure must POSITIVE;
        /// share of burst strength that may be used
        burst_fraction "f" Fraction must EFFICIENCY;
        /// mud weight inside
        mud_weight "ρ_in" Density must NON_NEGATIVE;
        /// density of the fluid behind the casing
        outside_weight "ρ_out" Density must NON_NEGATIVE;
        /// vertical depth looked at
        vertical_depth "D" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// surface pressure that may be held
    gives "p" Pressure;
    value |f| f.burst_fraction * f.burst - (f.mud_weight - f.outside_weight) * f.gravity * f.vertical_depth
}

formula! {
    /// Pressure on top of the annulus behind a casing that brings it to what it bears in collapse, at one depth.
    pub struct CollapseSurfacePressure;
    slug "collapse-surface-pressure";
    equation "p = p_c - (ρ_out - ρ_in) g D";
    law Homogeneous;
    source "fluid statics, the counterpart of burst-surface-pressure";
    given {
        /// collapse pressure that may be used
        collapse "p_c" Pressure must NON_NEGATIVE;
        /// density of the fluid behind the casing
        outside_weight "ρ_out" Density must NON_NEGATIVE;
        /// mud weight inside
        mud_weight "ρ_in" Density must NON_NEGATIVE;
        /// vertical depth looked at
        vertical_depth "D" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// pressure that may stand on top of the annulus
    gives "p" Pressure;
    value |f| f.collapse - (f.outside_weight - f.mud_weight) * f.gravity * f.vertical_depth
}

/// A length of casing of one burst strength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurstLength {
    /// Vertical depth of its upper end. [m]
    pub top: f64,
    /// Vertical depth of its lower end. [m]
    pub bottom: f64,
    /// Burst strength. [Pa]
    pub burst: f64,
}

/// What stands inside and behind the casing, and the share of burst that may be used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurstLoad {
    /// Share of burst strength that may be used. [-]
    pub burst_fraction: f64,
    /// Mud weight inside. [kg/m³]
    pub mud_weight: f64,
    /// Density of the fluid behind. [kg/m³]
    pub outside_weight: f64,
    /// Acceleration of free fall. [m/s²]
    pub gravity: f64,
}

/// Where the casing is first brought to its allowed burst.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurstLimit {
    /// Surface pressure that may be held. [Pa]
    pub surface_pressure: f64,
    /// Vertical depth that governs. [m]
    pub vertical_depth: f64,
}

/// The smallest surface pressure over all depths; `None` for no casing.
///
/// The load is straight in depth, so only the ends of each length can govern: the shoe when the mud inside is
/// the heavier, the surface when the fluid behind is.
pub fn burst_limit<R: Recorder>(rec: &mut R, lengths: &[BurstLength], load: BurstLoad) -> Option<BurstLimit> {
    let mut least: Option<BurstLimit> = None;
    for length in lengths {
        for vertical_depth in [length.top, length.bottom] {
            let surface_pressure = rec.take(BurstSurfacePressure {
                burst: length.burst,
                burst_fraction: load.burst_fraction,
                mud_weight: load.mud_weight,
                outside_weight: load.outside_weight,
                vertical_depth,
                gravity: load.gravity,
            });
            if least.is_none_or(|least| surface_pressure < least.surface_pressure) {
                least = Some(BurstLimit { surface_pressure, vertical_depth });
            }
        }
    }
    least
}

formula! {
    /// Anticipated surface pressure with gas from the formation to surface.
    pub struct GasToSurfacePressure;
    slug "masp-gas-to-surface";
    equation "MASP = p_f - ρ_gas g D";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4; named in 30 CFR 250.413(f)";
    given {
        /// formation pressure
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// mean density of the gas column
        gas_density "ρ_gas" Density must NON_NEGATIVE;
        /// vertical depth of the formation
        vertical_depth "D" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// anticipated surface pressure
    gives "MASP" Pressure;
    value |f| f.formation_pressure - f.gas_density * f.gravity * f.vertical_depth
}

formula! {
    /// Anticipated surface pressure when the shoe breaks under gas: no more can come to surface.
    ///
    /// The margin is put on top: the shoe may be stronger than it tested.
    pub struct ShoeFractureSurfacePressure;
    slug "masp-shoe-fracture";
    equation "MASP = (EMW_shoe + m) g D_shoe - ρ_gas g D_shoe";
    law Homogeneous;
    source "fluid statics; common practice";
    given {
        /// equivalent mud weight that the shoe bears
        shoe_weight "EMW_shoe" Density must POSITIVE;
        /// margin put on top
        margin "m" Density must NON_NEGATIVE;
        /// mean density of the gas column
        gas_density "ρ_gas" Density must NON_NEGATIVE;
        /// vertical depth of the shoe
        shoe_depth "D_shoe" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// anticipated surface pressure
    gives "MASP" Pressure;
    value |f| (f.shoe_weight + f.margin - f.gas_density) * f.gravity * f.shoe_depth
}

formula! {
    /// Anticipated surface pressure with gas over mud: the well is evacuated in part.
    pub struct PartialEvacuationPressure;
    slug "masp-partial-evacuation";
    equation "MASP = p_f - (e ρ_gas + (1 - e) ρ_mud) g D";
    law Homogeneous;
    source "fluid statics; common practice";
    given {
        /// formation pressure
        formation_pressure "p_f" Pressure must NON_NEGATIVE;
        /// share of the vertical depth that holds gas
        evacuated "e" Fraction must FRACTION;
        /// mean density of the gas column
        gas_density "ρ_gas" Density must NON_NEGATIVE;
        /// mud weight
        mud_weight "ρ_mud" Density must NON_NEGATIVE;
        /// vertical depth of the formation
        vertical_depth "D" Depth must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// anticipated surface pressure
    gives "MASP" Pressure;
    value |f| {
        let mean = f.evacuated * f.gas_density + (1.0 - f.evacuated) * f.mud_weight;
        f.formation_pressure - mean * f.gravity * f.vertical_depth
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const LOAD: BurstLoad =
        BurstLoad { burst_fraction: 0.8, mud_weight: 1438.0, outside_weight: 1126.0, gravity: STANDARD_GRAVITY };

    #[test]
    fn law_heavier_mud_inside_governs_at_the_shoe_and_behind_at_surface() {
        let pipe = [BurstLength { top: 0.0, bottom: 2438.0, burst: 4.2e7 }];
        assert!((burst_limit(&mut Off, &pipe, LOAD).unwrap().vertical_depth - 2438.0).abs() < 1e-9);
        let behind = BurstLoad { outside_weight: 1600.0, ..LOAD };
        let limit = burst_limit(&mut Off, &pipe, behind).unwrap();
        assert!(limit.vertical_depth.abs() < 1e-9);
        assert!((limit.surface_pressure - 0.8 * 4.2e7).abs() < 1e-3);
        assert_eq!(burst_limit(&mut Off, &[], LOAD), None);
    }

    #[test]
    fn law_a_weak_length_governs_where_it_begins_or_ends() {
        let pipe = [
            BurstLength { top: 0.0, bottom: 1000.0, burst: 6e7 },
            BurstLength { top: 1000.0, bottom: 1500.0, burst: 3e7 },
            BurstLength { top: 1500.0, bottom: 2438.0, burst: 6e7 },
        ];
        assert!((burst_limit(&mut Off, &pipe, LOAD).unwrap().vertical_depth - 1500.0).abs() < 1e-9);
    }

    #[test]
    fn law_leak_off_weight_gives_the_test_pressure_back() {
        let (mud_weight, shoe_depth, surface_pressure) = (1258.0, 1675.0, 6.9e6);
        let target_weight = LeakOffWeight { surface_pressure, mud_weight, shoe_depth, gravity: 9.81 }.value();
        let back = IntegrityTestPressure { target_weight, mud_weight, shoe_depth, gravity: 9.81 }.value();
        assert!((back - surface_pressure).abs() < 1e-6);
        let maasp = Maasp { shoe_weight: target_weight, mud_weight, shoe_depth, gravity: 9.81 }.value();
        assert!((maasp - surface_pressure).abs() < 1e-6);
    }

    #[test]
    fn law_whole_evacuation_is_gas_to_surface() {
        let (formation_pressure, gas_density, vertical_depth) = (6.9e7, 280.0, 3658.0);
        let part = PartialEvacuationPressure {
            formation_pressure,
            evacuated: 1.0,
            gas_density,
            mud_weight: 1500.0,
            vertical_depth,
            gravity: 9.81,
        };
        let whole = GasToSurfacePressure { formation_pressure, gas_density, vertical_depth, gravity: 9.81 };
        assert!((part.value() - whole.value()).abs() < 1e-6);
    }
}
