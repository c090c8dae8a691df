//! Cement that sets: the time at which its strength, read in a laboratory, reaches what is wanted.

use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[<TimeToStrength as Formula>::RECORD];

formula! {
    /// Time at which cement reaches a strength, between two readings of it.
    pub struct TimeToStrength;
    slug "time-to-strength";
    equation "t = t₁ + Δt (s - s₁)/(s₂ - s₁), Δt = t₂ - t₁";
    law Homogeneous;
    source "straight line between two readings; they are made as API RP 10B-2 says (from memory)";
    given {
        /// time of the reading before
        earlier_time "t₁" Time must NON_NEGATIVE;
        /// time from that reading to the next
        time_span "Δt" Time must NON_NEGATIVE;
        /// strength that is wanted above that of the reading before
        wanted "s - s₁" Pressure must NON_NEGATIVE;
        /// strength gained from that reading to the next
        gain "s₂ - s₁" Pressure must POSITIVE;
    }
    /// time at which the strength is there
    gives "t" Time;
    value |f| f.earlier_time + f.time_span * (f.wanted / f.gain)
}

/// When a strength is reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reached {
    /// At the first reading or before it. [s]
    ByTheFirst(f64),
    /// Between two readings. [s]
    At(f64),
    /// Not by the last reading. [s]
    NotBy(f64),
}

/// When readings of (time, strength), both rising, come to a wanted strength; `None` without readings.
pub fn time_to_strength<R: Recorder>(readings: &[(f64, f64)], wanted: f64, rec: &mut R) -> Option<Reached> {
    let (first, last) = (readings.first()?, readings.last()?);
    if wanted <= first.1 {
        return Some(Reached::ByTheFirst(first.0));
    }
    if wanted > last.1 {
        return Some(Reached::NotBy(last.0));
    }
    let pair = readings.windows(2).find(|pair| wanted <= pair[1].1)?;
    let [(earlier_time, earlier), (later_time, later)] = [pair[0], pair[1]];
    let between =
        TimeToStrength { earlier_time, time_span: later_time - earlier_time, wanted: wanted - earlier, gain: later - earlier };
    Some(Reached::At(rec.take(between)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const READINGS: &[(f64, f64)] = &[(7.0, 50.0), (11.0, 500.0), (24.0, 1800.0)];

    fn at(wanted: f64) -> Reached {
        time_to_strength(READINGS, wanted, &mut Off).unwrap()
    }

    #[test]
    fn law_every_reading_is_met_and_more_strength_takes_longer() {
        assert_eq!((at(50.0), at(500.0), at(1800.0)), (Reached::ByTheFirst(7.0), Reached::At(11.0), Reached::At(24.0)));
        let time = |wanted: f64| match at(wanted) {
            Reached::At(time) => time,
            other => panic!("{wanted}: {other:?}"),
        };
        let times: Vec<f64> = (1..=70).map(|step| time(50.0 + 25.0 * f64::from(step))).collect();
        assert!(times.windows(2).all(|pair| pair[0] < pair[1]), "{times:?}");
    }

    #[test]
    fn law_nothing_is_told_beyond_the_readings() {
        assert_eq!(at(10.0), Reached::ByTheFirst(7.0));
        assert_eq!(at(1800.0_f64.next_up()), Reached::NotBy(24.0));
        assert_eq!(time_to_strength(&[], 50.0, &mut Off), None);
    }
}
