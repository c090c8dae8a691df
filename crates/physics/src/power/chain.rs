//! The chain of efficiencies: power at the end of a drive, stage by stage back to its source.

use crate::{Formula, FormulaRecord, Kind, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[<StageInputPower as Formula>::RECORD, <ApparentPower as Formula>::RECORD];

formula! {
    /// Power that a stage takes in to give its output: motor, gear, chain, drive, cable.
    pub struct StageInputPower;
    slug "stage-input-power";
    equation "P_in = P_out / η";
    law Homogeneous;
    source "definition of efficiency";
    given {
        /// power given out
        output_power "P_out" Power must NON_NEGATIVE;
        /// efficiency of the stage
        efficiency "η" Fraction must EFFICIENCY;
    }
    /// power taken in
    gives "P_in" Power;
    value |f| f.output_power / f.efficiency
}

formula! {
    /// Apparent power that a load draws: what heats generators and cables.
    pub struct ApparentPower;
    slug "apparent-power";
    equation "S = P / cos φ";
    law Homogeneous;
    source "alternating current; definition of the power factor";
    given {
        /// electric power of the load
        electric_power "P" Power must NON_NEGATIVE;
        /// power factor of the load
        power_factor "cos φ" Fraction must EFFICIENCY;
    }
    /// apparent power
    gives "S" ApparentPower;
    value |f| f.electric_power / f.power_factor
}

/// Power at the source of a drive: the output divided by every efficiency on the way, last stage first.
pub fn source_power<R: Recorder>(rec: &mut R, output: f64, efficiencies: &[f64]) -> f64 {
    efficiencies
        .iter()
        .fold(output, |output_power, efficiency| rec.take(StageInputPower { output_power, efficiency: *efficiency }))
}

/// A consumer of electric power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Consumer<'a> {
    /// Power that it gives at its end: at the hook, at the bit, in the mud. [W]
    pub output_power: f64,
    /// Efficiencies from its end back to the bus. [-]
    pub efficiencies: &'a [f64],
}

/// Electric power at the bus of all consumers together. [W]
pub fn bus_power<R: Recorder>(rec: &mut R, consumers: &[Consumer<'_>]) -> f64 {
    let powers: Vec<f64> =
        consumers.iter().map(|consumer| source_power(rec, consumer.output_power, consumer.efficiencies)).collect();
    let sum = powers.iter().sum();
    rec.table("power at the bus by consumer", &[("at its end", Kind::Power), ("at the bus", Kind::Power)], || {
        consumers.iter().zip(&powers).map(|(consumer, power)| vec![consumer.output_power, *power]).collect()
    });
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    #[test]
    fn law_a_chain_is_the_product_of_its_stages() {
        let stages = [0.95, 0.9, 0.85];
        let power = source_power(&mut Off, 1e6, &stages);
        assert!((power - 1e6 / (0.95 * 0.9 * 0.85)).abs() < 1e-6);
        assert!((source_power(&mut Off, 1e6, &[]) - 1e6).abs() < 1e-9);
    }

    #[test]
    fn law_the_bus_carries_the_sum() {
        let drive = [0.9];
        let consumers = [Consumer { output_power: 9e5, efficiencies: &drive }, Consumer { output_power: 2e5, efficiencies: &[] }];
        assert!((bus_power(&mut Off, &consumers) - 1.2e6).abs() < 1e-6);
    }
}
