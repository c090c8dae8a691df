//! Fuel: the rate of a set from its curve, what it comes to over a time, how long the stock lasts, and carbon dioxide.

use crate::numerics::interpolate;
use crate::{Formula, FormulaRecord, Kind, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <FuelFromCurve as Formula>::RECORD,
    <FuelRateOfSets as Formula>::RECORD,
    <FuelUsed as Formula>::RECORD,
    <FuelEndurance as Formula>::RECORD,
    <CarbonDioxide as Formula>::RECORD,
    <SpecificFuelUse as Formula>::RECORD,
];

formula! {
    /// Fuel rate of a set between two points of its curve.
    pub struct FuelFromCurve;
    slug "fuel-rate-from-curve";
    equation "F = F_a + (F_b - F_a) s";
    law Homogeneous;
    source "straight line between the maker's points";
    given {
        /// fuel rate at the point below
        lower_rate "F_a" FuelRate must NON_NEGATIVE;
        /// fuel rate at the point above
        upper_rate "F_b" FuelRate must NON_NEGATIVE;
        /// how far the load lies from the lower to the upper point
        load_share "s" Fraction must FRACTION;
    }
    /// fuel rate of a set
    gives "F" FuelRate;
    value |f| f.lower_rate + (f.upper_rate - f.lower_rate) * f.load_share
}

formula! {
    /// Fuel rate of all sets on line, evenly loaded.
    pub struct FuelRateOfSets;
    slug "fuel-rate-of-sets";
    equation "F_all = n F";
    law Homogeneous;
    source "arithmetic";
    given {
        /// sets on line
        sets "n" Count must NON_NEGATIVE;
        /// fuel rate of a set
        fuel_rate "F" FuelRate must NON_NEGATIVE;
    }
    /// fuel rate of all sets
    gives "F_all" FuelRate;
    value |f| f.sets * f.fuel_rate
}

formula! {
    /// Fuel used over a time.
    pub struct FuelUsed;
    slug "fuel-used";
    equation "V = F t";
    law Homogeneous;
    source "arithmetic";
    given {
        /// fuel used per time
        fuel_rate "F" FuelRate must NON_NEGATIVE;
        /// time
        time "t" Time must NON_NEGATIVE;
    }
    /// fuel used
    gives "V" FluidVolume;
    value |f| f.fuel_rate * f.time
}

formula! {
    /// How long a stock of fuel lasts.
    pub struct FuelEndurance;
    slug "fuel-endurance";
    equation "t = V / F";
    law Homogeneous;
    source "arithmetic";
    given {
        /// fuel on site
        fuel_stock "V" FluidVolume must NON_NEGATIVE;
        /// fuel used per time
        fuel_rate "F" FuelRate must POSITIVE;
    }
    /// time until the stock is used up
    gives "t" Time;
    value |f| f.fuel_stock / f.fuel_rate
}

formula! {
    /// Carbon dioxide from burning fuel.
    pub struct CarbonDioxide;
    slug "carbon-dioxide-from-fuel";
    equation "m = V c";
    law Homogeneous;
    source "arithmetic; 10.21 kg per US gallon of diesel by the emission factors of the US EPA, from memory";
    given {
        /// fuel burnt
        fuel_used "V" FluidVolume must NON_NEGATIVE;
        /// mass of carbon dioxide per volume of fuel
        emission_factor "c" Density must NON_NEGATIVE default 2697.0;
    }
    /// mass of carbon dioxide
    gives "m" Mass;
    value |f| f.fuel_used * f.emission_factor
}

formula! {
    /// Energy that a volume of fuel gives at the generator: the figure to compare sets by.
    pub struct SpecificFuelUse;
    slug "energy-per-fuel";
    equation "e = P / F";
    law Homogeneous;
    source "definition";
    given {
        /// electric power at the bus
        electric_power "P" Power must NON_NEGATIVE;
        /// fuel used per time
        fuel_rate "F" FuelRate must POSITIVE;
    }
    /// energy per volume of fuel, which has the dimension of a pressure
    gives "e" Stress;
    value |f| f.electric_power / f.fuel_rate
}

/// Fuel rate of a set at a load, from the maker's points, ascending by load. `None` for no points, or for a load
/// above the last one: a curve is not carried on where the maker has none. Below the first point its rate stands,
/// since an engine that idles still burns. [m³/s]
pub fn fuel_rate<R: Recorder>(rec: &mut R, points: &[(f64, f64)], load: f64) -> Option<f64> {
    let (first, last) = (points.first()?, points.last()?);
    if load > last.0 + 1e-9 || load.is_nan() {
        return None;
    }
    let upper = points.partition_point(|point| point.0 < load).min(points.len() - 1);
    if upper == 0 {
        rec.note(|| "Below the first point of the fuel curve its rate is taken.".into());
        return Some(first.1);
    }
    let (below, above) = (points[upper - 1], points[upper]);
    let load_share = interpolate(&[(below.0, 0.0), (above.0, 1.0)], load)?;
    Some(rec.take(FuelFromCurve { lower_rate: below.1, upper_rate: above.1, load_share }))
}

/// Best number of sets to run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestSets {
    /// Sets on line.
    pub sets: u32,
    /// Fuel rate of all of them. [m³/s]
    pub fuel_rate: f64,
}

/// The number of sets between `least` and `most` that burns least fuel for a load; the fewer of equals. `None` where
/// no number carries the load within the fuel curve.
pub fn best_sets<R: Recorder>(
    rec: &mut R,
    points: &[(f64, f64)],
    electric_power: f64,
    rated_power: f64,
    range: std::ops::RangeInclusive<u32>,
) -> Option<BestSets> {
    let mut rows = Vec::new();
    let mut best: Option<BestSets> = None;
    for sets in range.filter(|sets| *sets > 0) {
        let load = electric_power / (f64::from(sets) * rated_power);
        let Some(of_one) = fuel_rate(&mut crate::Off, points, load) else { continue };
        let all = FuelRateOfSets { sets: f64::from(sets), fuel_rate: of_one }.value();
        if R::ON {
            rows.push(vec![f64::from(sets), load, all]);
        }
        if best.is_none_or(|best| all < best.fuel_rate) {
            best = Some(BestSets { sets, fuel_rate: all });
        }
    }
    rec.table(
        "fuel by number of sets on line",
        &[("sets", Kind::Count), ("load of a set", Kind::Ratio), ("fuel rate of all", Kind::FuelRate)],
        || rows,
    );
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// A made-up curve: idling costs, and full load is the most thrifty.
    const CURVE: [(f64, f64); 4] = [(0.25, 2.4e-5), (0.5, 3.9e-5), (0.75, 5.5e-5), (1.0, 7.2e-5)];

    #[test]
    fn law_fuel_passes_through_the_makers_points_and_stops_at_the_last() {
        for (load, rate) in CURVE {
            assert!((fuel_rate(&mut Off, &CURVE, load).unwrap() - rate).abs() < 1e-18);
        }
        assert!((fuel_rate(&mut Off, &CURVE, 0.1).unwrap() - 2.4e-5).abs() < 1e-18);
        assert_eq!(fuel_rate(&mut Off, &CURVE, 1.01), None);
        assert_eq!(fuel_rate(&mut Off, &[], 0.5), None);
        assert_eq!(fuel_rate(&mut Off, &CURVE, f64::NAN), None);
    }

    #[test]
    fn law_the_best_number_burns_least_and_carries_the_load() {
        for step in 1..=40 {
            let power = f64::from(step) * 1e5;
            let best = best_sets(&mut Off, &CURVE, power, 1e6, 1..=4).unwrap();
            assert!(f64::from(best.sets) * 1e6 >= power * (1.0 - 1e-9));
            for sets in 1..=4u32 {
                let load = power / (f64::from(sets) * 1e6);
                if let Some(rate) = fuel_rate(&mut Off, &CURVE, load) {
                    assert!(best.fuel_rate <= rate * f64::from(sets) * (1.0 + 1e-12));
                }
            }
        }
        assert_eq!(best_sets(&mut Off, &CURVE, 5e6, 1e6, 1..=4), None);
    }
}
