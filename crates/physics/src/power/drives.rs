//! Variable-speed drives: the way from the bus through converter, motor and gear to a shaft, and the power factor that the
//! bus sees, by kind of drive. No formula of its own: it chooses the figures that the formulas of `chain` and `loads` take.

use super::chain::StageInputPower;
use super::loads::{ElectricLoad, RectifierPowerFactor};
use crate::{Kind, Recorder};

/// Kinds of drive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MotorCurrent {
    /// Thyristor bridge and direct-current motor: the power factor falls with the speed.
    Direct,
    /// Diode rectifier, inverter and induction motor: the power factor stays that of a rectifier at full voltage.
    Alternating,
}

/// Efficiencies from the bus to a shaft. [-]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriveChain {
    /// Converter with its transformer and cable.
    pub converter: f64,
    /// Motor.
    pub motor: f64,
    /// Gear, belt or chain between motor and shaft.
    pub gear: f64,
}

/// Source of the converters' efficiencies.
pub const CONVERTER_SOURCE: &str = "97 % for alternating current (US DOE, Motor Systems Tip Sheet 11, from memory), 98 % for a thyristor bridge (common practice)";
/// Source of the motors' efficiencies.
pub const MOTOR_SOURCE: &str = "95 % for an induction motor above 200 kW (IEC 60034-30-1, class IE2, from memory), 93 % for a direct-current motor (common practice)";
/// Source of the gears' efficiency.
pub const GEAR_SOURCE: &str = "97 % for one step of gears, belts or chain (common practice)";

/// Slowest speed that a power factor is told for, as a share of full speed: at rest a motor that pulls draws current and no power.
pub const CREEP: f64 = 0.01;

impl MotorCurrent {
    /// What a drive of this kind loses where nobody measured it: [`CONVERTER_SOURCE`], [`MOTOR_SOURCE`], [`GEAR_SOURCE`].
    pub const fn usual_chain(self) -> DriveChain {
        match self {
            MotorCurrent::Direct => DriveChain { converter: 0.98, motor: 0.93, gear: 0.97 },
            MotorCurrent::Alternating => DriveChain { converter: 0.97, motor: 0.95, gear: 0.97 },
        }
    }

    /// Power factor at a share of full speed.
    pub fn power_factor<R: Recorder>(self, speed_share: f64, rec: &mut R) -> f64 {
        let voltage_share = match self {
            MotorCurrent::Direct => speed_share.clamp(CREEP, 1.0),
            MotorCurrent::Alternating => 1.0,
        };
        rec.take(RectifierPowerFactor { voltage_share })
    }
}

impl DriveChain {
    /// Efficiency of the whole chain. [-]
    pub fn efficiency(&self) -> f64 {
        self.converter * self.motor * self.gear
    }

    /// Power that the chain takes from the bus to give this at the shaft. [W]
    pub fn input_power<R: Recorder>(&self, shaft_power: f64, rec: &mut R) -> f64 {
        let after_gear = rec.take(StageInputPower { output_power: shaft_power, efficiency: self.gear });
        let after_motor = rec.take(StageInputPower { output_power: after_gear, efficiency: self.motor });
        rec.take(StageInputPower { output_power: after_motor, efficiency: self.converter })
    }
}

/// What a shaft draws from the bus.
pub fn drive_load<R: Recorder>(
    current: MotorCurrent,
    chain: &DriveChain,
    shaft_power: f64,
    speed_share: f64,
    rec: &mut R,
) -> ElectricLoad {
    let power = chain.input_power(shaft_power.max(0.0), rec);
    if current == MotorCurrent::Direct {
        rec.given("speed of the motor as a share of its full speed", speed_share, Kind::Ratio);
    }
    ElectricLoad { power, power_factor: current.power_factor(speed_share, rec) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;
    use crate::power::loads::bus_sum;

    /// A motor that pulls alike at every speed draws the same apparent power at every speed, if its current is rectified.
    #[test]
    fn law_steady_torque_is_steady_apparent_power_with_direct_current() {
        let chain = MotorCurrent::Direct.usual_chain();
        let apparent = |speed: f64| {
            let load = drive_load(MotorCurrent::Direct, &chain, 8e5 * speed, speed, &mut Off);
            bus_sum(&[load], &mut Off).apparent_power
        };
        for speed in [0.02, 0.3, 0.7] {
            assert!((apparent(speed) / apparent(1.0) - 1.0).abs() < 1e-9);
        }
        let alternating = MotorCurrent::Alternating;
        let load = drive_load(alternating, &alternating.usual_chain(), 8e4, 0.1, &mut Off);
        assert!((load.power_factor - 3.0 / std::f64::consts::PI).abs() < 1e-12);
    }

    #[test]
    fn law_the_chain_is_the_product_of_its_stages() {
        for current in [MotorCurrent::Direct, MotorCurrent::Alternating] {
            let chain = current.usual_chain();
            assert!((chain.input_power(1e6, &mut Off) * chain.efficiency() / 1e6 - 1.0).abs() < 1e-12);
        }
        assert!(MotorCurrent::Direct.power_factor(0.0, &mut Off) > 0.0);
    }
}
