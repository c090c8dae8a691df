//! Electric loads beyond plain kilowatts: reactive power, drives with poor power factor, and starting a motor.
//!
//! Kilovolt-amperes of unlike loads do not add up; kilowatts and kilovars do.

use crate::{Formula, FormulaRecord, Kind, Recorder, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <ReactivePower as Formula>::RECORD,
    <ApparentFromParts as Formula>::RECORD,
    <PowerFactor as Formula>::RECORD,
    <RectifierPowerFactor as Formula>::RECORD,
    <MotorApparentPower as Formula>::RECORD,
    <StartingApparentPower as Formula>::RECORD,
    <StartableApparentPower as Formula>::RECORD,
];

formula! {
    /// Reactive power of a load.
    pub struct ReactivePower;
    slug "reactive-power";
    equation "Q = P √(1 - cos²φ)/cos φ";
    law Homogeneous;
    source "alternating current";
    given {
        /// electric power of the load
        electric_power "P" Power must NON_NEGATIVE;
        /// power factor of the load
        power_factor "cos φ" Fraction must between(0.01, 1.0);
    }
    /// reactive power
    gives "Q" ApparentPower;
    value |f| f.electric_power * ((1.0 - f.power_factor) * (1.0 + f.power_factor)).sqrt() / f.power_factor
}

formula! {
    /// Apparent power from power and reactive power.
    pub struct ApparentFromParts;
    slug "apparent-power-from-parts";
    equation "S = √(P² + Q²)";
    law Homogeneous;
    source "alternating current";
    given {
        /// electric power
        electric_power "P" Power must NON_NEGATIVE;
        /// reactive power
        reactive_power "Q" ApparentPower must ANY;
    }
    /// apparent power
    gives "S" ApparentPower;
    value |f| f.electric_power.hypot(f.reactive_power)
}

formula! {
    /// Power factor of a load from its power and apparent power.
    pub struct PowerFactor;
    slug "power-factor";
    equation "cos φ = P/S";
    law Homogeneous;
    source "definition";
    given {
        /// electric power
        electric_power "P" Power must NON_NEGATIVE;
        /// apparent power
        apparent_power "S" ApparentPower must at_least(1e-3);
    }
    /// power factor
    gives "cos φ" Ratio;
    value |f| f.electric_power / f.apparent_power
}

formula! {
    /// Power factor of a six-pulse rectifier drive: it falls with the speed of its direct-current motor.
    ///
    /// A motor that pulls hard at a tenth of its speed loads the generators with ten times its power in kVA. For
    /// a smooth current and without overlap.
    pub struct RectifierPowerFactor;
    slug "rectifier-power-factor";
    equation "cos φ = 3/π u";
    law Homogeneous;
    source "six-pulse bridge, in any text on power electronics";
    given {
        /// motor voltage as a share of the full voltage of the rectifier; nearly the share of the speed
        voltage_share "u" Fraction must FRACTION;
    }
    /// power factor
    gives "cos φ" Fraction;
    value |f| 3.0 / PI * f.voltage_share
}

formula! {
    /// Apparent power of a motor at its rating.
    pub struct MotorApparentPower;
    slug "motor-apparent-power";
    equation "S = P/(η cos φ)";
    law Homogeneous;
    source "definition of efficiency and power factor";
    given {
        /// power of the motor at its shaft
        output_power "P" Power must NON_NEGATIVE;
        /// efficiency of the motor
        efficiency "η" Fraction must between(0.01, 1.0);
        /// power factor of the motor
        power_factor "cos φ" Fraction must between(0.01, 1.0);
    }
    /// apparent power
    gives "S" ApparentPower;
    value |f| f.output_power / (f.efficiency * f.power_factor)
}

formula! {
    /// Apparent power that a motor draws at rest.
    ///
    /// Straight on the line it takes 5 to 7 times its current; with less voltage its current falls in proportion and the
    /// apparent power with the square. A motor on a frequency drive starts without this.
    pub struct StartingApparentPower;
    slug "starting-apparent-power";
    equation "S_s = i u² S";
    law Homogeneous;
    source "circuit theory; 5 to 7 times common practice (NEMA MG 1 states it by code letter)";
    given {
        /// starting current over rated current at full voltage
        current_ratio "i" Ratio must NON_NEGATIVE valid between(1.0, 8.0) default 6.0;
        /// voltage at the motor as a share of full voltage: 1 straight on the line, the tap of an auto-transformer
        starting_voltage "u" Fraction must FRACTION default 1.0;
        /// apparent power of the motor at its rating
        apparent_power "S" ApparentPower must NON_NEGATIVE;
    }
    /// apparent power at rest
    gives "S_s" ApparentPower;
    value |f| f.current_ratio * f.starting_voltage * f.starting_voltage * f.apparent_power
}

formula! {
    /// Largest apparent power at rest that the sets on line start within an allowed voltage dip.
    pub struct StartableApparentPower;
    slug "startable-apparent-power";
    equation "S_s = d n S_rated/[X' (1 - d)]";
    law Homogeneous;
    source "voltage divider of a generator behind its transient reactance and a motor at rest, solved for the motor";
    given {
        /// allowed voltage dip
        voltage_dip "d" Fraction must between(0.0, 0.9) valid between(0.05, 0.35) default 0.2;
        /// sets on line
        sets "n" Count must NON_NEGATIVE;
        /// apparent power that one generator bears
        rated_apparent_power "S_rated" ApparentPower must NON_NEGATIVE;
        /// transient reactance of a generator, per unit of its rating
        transient_reactance "X'" Ratio must at_least(1e-3) valid between(0.1, 0.5);
    }
    /// apparent power at rest
    gives "S_s" ApparentPower;
    value |f| f.voltage_dip * f.sets * f.rated_apparent_power / (f.transient_reactance * (1.0 - f.voltage_dip))
}

/// A load with its power factor.
#[derive(Clone, Copy, Debug)]
pub struct ElectricLoad {
    /// Electric power. [W]
    pub power: f64,
    /// Power factor, above nought. [-]
    pub power_factor: f64,
}

/// What unlike loads come to on one bus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BusSum {
    /// Power. [W]
    pub power: f64,
    /// Apparent power. [VA]
    pub apparent_power: f64,
    /// Power factor; one for no load. [-]
    pub power_factor: f64,
}

/// Adds up loads of unlike power factor.
pub fn bus_sum<R: Recorder>(loads: &[ElectricLoad], rec: &mut R) -> BusSum {
    let reactive = |load: &ElectricLoad| ReactivePower { electric_power: load.power, power_factor: load.power_factor };
    let electric_power: f64 = loads.iter().map(|load| load.power).sum();
    let reactive_power: f64 = loads.iter().map(|load| reactive(load).value()).sum();
    if let Some(largest) = loads.iter().max_by(|a, b| a.power.total_cmp(&b.power)) {
        rec.note(|| "the largest load in full".into());
        rec.take(reactive(largest));
    }
    const COLUMNS: &[(&str, Kind)] =
        &[("power", Kind::Power), ("power factor", Kind::Ratio), ("reactive power", Kind::ApparentPower)];
    rec.table("loads on the bus", COLUMNS, || {
        loads.iter().map(|load| vec![load.power, load.power_factor, reactive(load).value()]).collect()
    });
    let apparent_power = rec.take(ApparentFromParts { electric_power, reactive_power });
    let power_factor = if apparent_power > 1e-3 { rec.take(PowerFactor { electric_power, apparent_power }) } else { 1.0 };
    BusSum { power: electric_power, apparent_power, power_factor }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;
    use crate::power::chain::ApparentPower;
    use crate::power::sets::VoltageDip;

    /// Like loads keep their power factor and add up; unlike ones come to less than the sum of their kVA.
    #[test]
    fn law_kilovolt_amperes_do_not_add_up() {
        let load = |power, power_factor| ElectricLoad { power, power_factor };
        let like = bus_sum(&[load(3e5, 0.8), load(5e5, 0.8)], &mut Off);
        assert!((like.power_factor - 0.8).abs() < 1e-12);
        assert!((like.apparent_power / ApparentPower { electric_power: 8e5, power_factor: 0.8 }.value() - 1.0).abs() < 1e-12);
        let unlike = bus_sum(&[load(3e5, 0.3), load(5e5, 0.95)], &mut Off);
        assert!(unlike.apparent_power < 3e5 / 0.3 + 5e5 / 0.95 - 1e4 && unlike.apparent_power > 8e5);
        assert_eq!(bus_sum(&[], &mut Off), BusSum { power: 0.0, apparent_power: 0.0, power_factor: 1.0 });
    }

    /// A motor of the largest startable power dips the voltage by just what is allowed.
    #[test]
    fn law_startable_power_gives_the_allowed_dip() {
        let (rated_apparent_power, transient_reactance) = (1.75e6, 0.25);
        for sets in [1.0, 2.0, 4.0] {
            for voltage_dip in [0.0, 0.15, 0.3] {
                let largest = StartableApparentPower { voltage_dip, sets, rated_apparent_power, transient_reactance }.value();
                let dip = VoltageDip { transient_reactance, starting_power: largest, sets, rated_apparent_power }.value();
                assert!((dip - voltage_dip).abs() < 1e-12);
            }
        }
        let full = MotorApparentPower { output_power: 1.2e6, efficiency: 0.95, power_factor: 0.88 }.value();
        let start =
            |starting_voltage| StartingApparentPower { current_ratio: 6.0, starting_voltage, apparent_power: full }.value();
        assert!((start(0.65) / start(1.0) - 0.65 * 0.65).abs() < 1e-12);
    }

    /// The mean of a six-pulse bridge over its currents: the rms of a 120 degree block against its fundamental.
    #[test]
    fn law_rectifier_power_factor_at_full_voltage() {
        let steps = 120_000;
        let (mut product, mut square) = (0.0, 0.0);
        for step in 0..steps {
            let angle = 2.0 * PI * (f64::from(step) + 0.5) / f64::from(steps);
            let current: f64 = if angle.sin().abs() > 0.5 { angle.sin().signum() } else { 0.0 };
            product += angle.sin() * current;
            square += current * current;
        }
        // Power over rms voltage times rms current; the voltage is a sine of unit height.
        let factor = (product / f64::from(steps)) / (0.5f64.sqrt() * (square / f64::from(steps)).sqrt());
        assert!((RectifierPowerFactor { voltage_share: 1.0 }.value() - factor).abs() < 1e-4, "{factor}");
    }
}
