//! Generator sets: how they are loaded, how many it takes, and how many when one is lost.
//!
//! Power is limited by the engine, apparent power by the generator: both are looked at, and a set must bear both.

use super::chain::ApparentPower;
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <SetLoad as Formula>::RECORD,
    <SetApparentLoad as Formula>::RECORD,
    <SetsNeeded as Formula>::RECORD,
    <SpinningReserve as Formula>::RECORD,
    <VoltageDip as Formula>::RECORD,
];

formula! {
    /// Load of each set on line as a share of its rating, shared evenly.
    pub struct SetLoad;
    slug "set-load";
    equation "x = P / (n P_rated)";
    law Homogeneous;
    source "even sharing by the governors, common practice";
    given {
        /// electric power at the bus
        electric_power "P" Power must NON_NEGATIVE;
        /// sets on line
        sets "n" Count must ONE_OR_MORE;
        /// continuous power of one set
        rated_power "P_rated" Power must POSITIVE;
    }
    /// load of a set
    gives "x" Ratio;
    value |f| f.electric_power / (f.sets * f.rated_power)
}

formula! {
    /// Apparent load of each generator on line as a share of its rating.
    pub struct SetApparentLoad;
    slug "set-apparent-load";
    equation "x = S / (n S_rated)";
    law Homogeneous;
    source "even sharing by the voltage regulators, common practice";
    given {
        /// apparent power at the bus
        apparent_power "S" ApparentPower must NON_NEGATIVE;
        /// sets on line
        sets "n" Count must ONE_OR_MORE;
        /// apparent power that one generator bears
        rated_apparent_power "S_rated" ApparentPower must POSITIVE;
    }
    /// apparent load of a generator
    gives "x" Ratio;
    value |f| f.apparent_power / (f.sets * f.rated_apparent_power)
}

formula! {
    /// Sets on line that carry a load at no more than an allowed share of their rating.
    pub struct SetsNeeded;
    slug "sets-needed";
    equation "n = ⌈P / (x P_rated)⌉, at least 1";
    law Homogeneous;
    source "arithmetic";
    given {
        /// electric power at the bus
        electric_power "P" Power must NON_NEGATIVE;
        /// share of its rating that a set may be loaded to
        allowed_load "x" Fraction must EFFICIENCY default 1.0;
        /// continuous power of one set
        rated_power "P_rated" Power must POSITIVE;
    }
    /// sets on line
    gives "n" Count;
    value |f| {
        // A load that is whole sets but for the noise of binary numbers does not start another.
        (f.electric_power / (f.allowed_load * f.rated_power) * (1.0 - 1e-12)).ceil().max(1.0)
    }
}

formula! {
    /// Running capacity that is not used.
    pub struct SpinningReserve;
    slug "spinning-reserve";
    equation "R = n P_rated - P";
    law Homogeneous;
    source "definition, common practice";
    given {
        /// sets on line
        sets "n" Count must NON_NEGATIVE;
        /// continuous power of one set
        rated_power "P_rated" Power must POSITIVE;
        /// electric power at the bus
        electric_power "P" Power must NON_NEGATIVE;
    }
    /// spinning reserve; negative when the sets are overloaded
    gives "R" Power;
    value |f| f.sets * f.rated_power - f.electric_power
}

formula! {
    /// First dip of the voltage when a motor is switched straight on, as a share of the voltage.
    ///
    /// Generators behind their transient reactance feed a motor at rest, both taken as pure reactances: a voltage
    /// divider. Other loads on line, cable and the regulator are left out. A motor on a drive does not do this.
    pub struct VoltageDip;
    slug "voltage-dip";
    equation "d = X' k / (1 + X' k), k = S_start / (n S_rated)";
    law Homogeneous;
    source "voltage divider of a generator behind its transient reactance and a motor at rest; circuit theory";
    given {
        /// transient reactance of a generator, per unit of its rating
        transient_reactance "X'" Ratio must NON_NEGATIVE valid between(0.1, 0.5);
        /// apparent power that the motor draws at rest at full voltage
        starting_power "S_start" ApparentPower must NON_NEGATIVE;
        /// sets on line
        sets "n" Count must ONE_OR_MORE;
        /// apparent power that one generator bears
        rated_apparent_power "S_rated" ApparentPower must POSITIVE;
    }
    /// voltage dip
    gives "d" Fraction;
    value |f| {
        // Written so that it tends to one and never overflows.
        let ratio = f.transient_reactance * f.starting_power / (f.sets * f.rated_apparent_power);
        1.0 - 1.0 / (1.0 + ratio)
    }
}

/// Like sets on one bus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bus {
    /// Continuous power of one set. [W]
    pub rated_power: f64,
    /// Apparent power that one generator bears, where it is known. [VA]
    pub rated_apparent_power: Option<f64>,
    /// Share of its rating that a set may be loaded to. [-]
    pub allowed_load: f64,
}

/// A load on the bus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BusLoad {
    /// Electric power. [W]
    pub electric_power: f64,
    /// Power factor. [-]
    pub power_factor: f64,
}

/// How a set on line is loaded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loading {
    /// Power over rated power. [-]
    pub power: f64,
    /// Apparent power over rated apparent power, where that is known. [-]
    pub apparent: Option<f64>,
}

impl Loading {
    /// The greater of the two.
    pub fn governing(&self) -> f64 {
        self.apparent.map_or(self.power, |apparent| apparent.max(self.power))
    }
}

impl Bus {
    /// Load of each set with this many on line; `None` for none on line.
    pub fn loading<R: Recorder>(&self, rec: &mut R, load: BusLoad, sets: u32) -> Option<Loading> {
        if sets == 0 {
            return None;
        }
        let BusLoad { electric_power, power_factor } = load;
        let sets = f64::from(sets);
        let power = rec.take(SetLoad { electric_power, sets, rated_power: self.rated_power });
        let apparent = self.rated_apparent_power.map(|rated_apparent_power| {
            let apparent_power = rec.take(ApparentPower { electric_power, power_factor });
            rec.take(SetApparentLoad { apparent_power, sets, rated_apparent_power })
        });
        Some(Loading { power, apparent })
    }

    /// Sets on line that carry a load within the allowed share of both ratings.
    pub fn sets_needed<R: Recorder>(&self, rec: &mut R, load: BusLoad) -> f64 {
        let BusLoad { electric_power, power_factor } = load;
        let allowed_load = self.allowed_load;
        let by_power = rec.take(SetsNeeded { electric_power, allowed_load, rated_power: self.rated_power });
        let Some(rated_apparent_power) = self.rated_apparent_power else { return by_power };
        // A generator bears as much power as its apparent rating times the power factor of the load.
        let rated_power = rated_apparent_power * power_factor;
        by_power.max(rec.take(SetsNeeded { electric_power, allowed_load, rated_power }))
    }

    /// Sets to have on line so that the load is still carried when one is lost.
    pub fn sets_needed_with_one_lost<R: Recorder>(&self, rec: &mut R, load: BusLoad) -> f64 {
        self.sets_needed(rec, load) + 1.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const BUS: Bus = Bus { rated_power: 1.2e6, rated_apparent_power: Some(1.5e6), allowed_load: 0.9 };

    #[test]
    fn law_the_sets_needed_carry_the_load_and_one_fewer_does_not() {
        for step in 1..40 {
            let load = BusLoad { electric_power: f64::from(step) * 1.1e5, power_factor: 0.7 };
            let needed = BUS.sets_needed(&mut Off, load) as u32;
            assert!(BUS.loading(&mut Off, load, needed).unwrap().governing() <= 0.9 + 1e-9);
            if needed > 1 {
                assert!(BUS.loading(&mut Off, load, needed - 1).unwrap().governing() > 0.9);
            }
            let with_one_lost = BUS.sets_needed_with_one_lost(&mut Off, load) as u32 - 1;
            assert!(BUS.loading(&mut Off, load, with_one_lost).unwrap().governing() <= 0.9 + 1e-9);
        }
    }

    #[test]
    fn law_a_poor_power_factor_makes_the_generator_govern() {
        let load = |power_factor| BusLoad { electric_power: 2e6, power_factor };
        let poor = BUS.loading(&mut Off, load(0.6), 2).unwrap();
        assert!(poor.apparent.unwrap() > poor.power);
        let good = BUS.loading(&mut Off, load(1.0), 2).unwrap();
        assert!(good.apparent.unwrap() < good.power);
        assert_eq!(BUS.loading(&mut Off, load(1.0), 0), None);
    }

    #[test]
    fn law_whole_sets_do_not_start_another() {
        let needed = |electric_power| SetsNeeded { electric_power, allowed_load: 0.9, rated_power: 1.2e6 }.value();
        for count in 1..20 {
            assert!((needed(f64::from(count) * (0.9 * 1.2e6)) - f64::from(count)).abs() < 1e-9);
        }
        assert!((needed(0.0) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn law_more_sets_on_line_dip_less() {
        let dip = |sets| VoltageDip { transient_reactance: 0.25, starting_power: 2e6, sets, rated_apparent_power: 1.5e6 }.value();
        assert!(dip(1.0) > dip(2.0) && dip(2.0) > dip(4.0));
        let none = VoltageDip { transient_reactance: 0.25, starting_power: 0.0, sets: 1.0, rated_apparent_power: 1.5e6 };
        assert!(none.value().abs() < 1e-15);
    }
}
