//! The bit: pressure through the nozzles, jets, hydraulic power and impact, and how to split the pump pressure.
//!
//! The discharge coefficient is an input: 0.95 by tradition and API RP 13D, 0.98 at most on the bench, 1.03 for bits while
//! drilling. From 0.95 to 1.03 the computed loss falls by 15 %. Jet velocity is always flow over area.

use crate::field::INCH;
use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    NozzleArea::RECORD,
    BitPressureLoss::RECORD,
    JetVelocity::RECORD,
    JetImpact::RECORD,
    HydraulicPower::RECORD,
    HydraulicPowerPerArea::RECORD,
    NozzleAreaForPressure::RECORD,
    FlowExponent::RECORD,
    PressureAtFlow::RECORD,
    ToolPressureLoss::RECORD,
    ParasiticForPower::RECORD,
    ParasiticForImpact::RECORD,
    ParasiticForImpactAtPower::RECORD,
    FlowAtParasitic::RECORD,
];

/// Discharge coefficient of API RP 13D and most printed examples. [-]
pub const DISCHARGE_COEFFICIENT: f64 = 0.95;

formula! {
    /// Area of like nozzles; the total flow area is the sum over the sizes.
    pub struct NozzleArea;
    slug "nozzle-area";
    equation "A = N π/4 d²";
    law Homogeneous;
    source "plane geometry; in 32nds of an inch N d²/1303.8 in²";
    given {
        /// number of nozzles of this size
        nozzles "N" Count must NON_NEGATIVE default 1.0;
        /// nozzle diameter
        nozzle_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// area open to flow
    gives "A" Area;
    value |f| f.nozzles * PI / 4.0 * f.nozzle_diameter * f.nozzle_diameter
}

formula! {
    /// Pressure that the mud loses in the nozzles of the bit.
    pub struct BitPressureLoss;
    slug "bit-pressure-loss";
    equation "Δpb = ρ Q² / (2 Cd² A²)";
    law Homogeneous;
    source "Bernoulli with a discharge coefficient; in field units ρ Q²/(12034 Cd² A²), API RP 13D, 3rd ed. 1995";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// total flow area of the nozzles
        flow_area "A" Area must POSITIVE;
        /// discharge coefficient
        discharge_coefficient "Cd" Ratio must between(0.5, 1.2) valid between(0.9, 1.05) default DISCHARGE_COEFFICIENT;
    }
    /// pressure lost at the bit
    gives "Δpb" Pressure;
    value |f| {
        let jet = f.flow_rate / (f.discharge_coefficient * f.flow_area);
        f.density * jet * jet / 2.0
    }
}

formula! {
    /// Jet velocity: mean velocity in the nozzles.
    pub struct JetVelocity;
    slug "jet-velocity";
    equation "vj = Q / A";
    law Homogeneous;
    source "continuity; in field units 0.3208 Q/A ft/s";
    given {
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// total flow area of the nozzles
        flow_area "A" Area must POSITIVE;
    }
    /// jet velocity
    gives "vj" JetSpeed;
    value |f| f.flow_rate / f.flow_area
}

formula! {
    /// Jet impact force: momentum of the jets per time.
    pub struct JetImpact;
    slug "jet-impact-force";
    equation "F = ρ Q vj";
    law Homogeneous;
    source "momentum balance; in field units ρ Q v/1930";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// jet velocity
        jet_velocity "vj" JetSpeed must NON_NEGATIVE;
    }
    /// impact force
    gives "F" Force;
    value |f| f.density * f.flow_rate * f.jet_velocity
}

formula! {
    /// Hydraulic power of a flow at a pressure: of the pump, or spent at the bit.
    pub struct HydraulicPower;
    slug "hydraulic-power";
    equation "P = p Q";
    law Homogeneous;
    source "mechanics; in field units p Q/1714 hp";
    given {
        /// pressure, or pressure lost
        pressure "p" Pressure must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
    }
    /// hydraulic power
    gives "P" Power;
    value |f| f.pressure * f.flow_rate
}

formula! {
    /// Hydraulic power at the bit per area of the hole: HSI in field units.
    pub struct HydraulicPowerPerArea;
    slug "hydraulic-power-per-area";
    equation "P/A = Δpb Q / (π/4 D²)";
    law Homogeneous;
    source "definition; common practice";
    given {
        /// pressure lost at the bit
        bit_pressure_loss "Δpb" Pressure must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// bit diameter
        bit_diameter "D" Diameter must POSITIVE;
    }
    /// hydraulic power per area
    gives "P/A" PowerPerArea;
    value |f| f.bit_pressure_loss * f.flow_rate / (PI / 4.0 * f.bit_diameter * f.bit_diameter)
}

formula! {
    /// Nozzle area that takes a wanted pressure at a flow.
    pub struct NozzleAreaForPressure;
    slug "nozzle-area-for-pressure";
    equation "A = Q √(ρ / (2 Δpb)) / Cd";
    law Homogeneous;
    source "bit pressure loss turned round; Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5";
    given {
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// pressure wanted at the bit
        bit_pressure_loss "Δpb" Pressure must POSITIVE;
        /// discharge coefficient
        discharge_coefficient "Cd" Ratio must between(0.5, 1.2) valid between(0.9, 1.05) default DISCHARGE_COEFFICIENT;
    }
    /// total flow area
    gives "A" Area;
    value |f| f.flow_rate * (f.density / (2.0 * f.bit_pressure_loss)).sqrt() / f.discharge_coefficient
}

formula! {
    /// Flow exponent of a pressure from two rates: of the parasitic loss, pump less bit, at one depth.
    ///
    /// Two equal flows tell nothing: the exponent is then given as nought.
    pub struct FlowExponent;
    slug "flow-exponent";
    equation "m = log(p1/p2) / log(Q1/Q2)";
    law Homogeneous;
    source "Kendall & Goins 1960; Guo & Liu, Applied Drilling Circulation Systems 2011, p. 82-90";
    given {
        /// pressure at the first flow
        pressure_1 "p1" Pressure must POSITIVE;
        /// pressure at the second flow
        pressure_2 "p2" Pressure must POSITIVE;
        /// first flow
        flow_rate_1 "Q1" FlowRate must POSITIVE;
        /// second flow
        flow_rate_2 "Q2" FlowRate must POSITIVE;
    }
    /// flow exponent
    gives "m" Ratio;
    value |f| {
        let flows = (f.flow_rate_1 / f.flow_rate_2).ln();
        if flows.abs() < 1e-9 { 0.0 } else { (f.pressure_1 / f.pressure_2).ln() / flows }
    }
}

formula! {
    /// Pressure at a new flow from one reading and the flow exponent.
    pub struct PressureAtFlow;
    slug "pressure-at-flow";
    equation "p2 = p1 (Q2/Q1)^m";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 1; an exponent of 2 is common practice";
    given {
        /// pressure read
        pressure "p1" Pressure must NON_NEGATIVE;
        /// flow or pump speed of the new one over that of the reading
        flow_ratio "Q2/Q1" Ratio must NON_NEGATIVE;
        /// flow exponent
        flow_exponent "m" Ratio must between(0.5, 3.0) valid between(1.0, 2.0) default 2.0;
    }
    /// pressure at the new flow
    gives "p2" Pressure;
    value |f| f.pressure * f.flow_ratio.powf(f.flow_exponent)
}

formula! {
    /// Pressure that a downhole motor or tool takes, from what it took at one flow and mud weight.
    pub struct ToolPressureLoss;
    slug "tool-pressure-loss";
    equation "p = p1 (ρ/ρ1) (Q/Q1)^m";
    law Homogeneous;
    source "turbulent losses go with the density; an exponent of 2 is common practice, as through an orifice; 1.86 as in pipe";
    given {
        /// pressure that the tool took
        reference_loss "p1" Pressure must NON_NEGATIVE;
        /// mud weight at which it took it
        reference_density "ρ1" Density must POSITIVE;
        /// flow at which it took it
        reference_flow_rate "Q1" FlowRate must POSITIVE;
        /// mud weight
        density "ρ" Density must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// flow exponent
        flow_exponent "m" Ratio must between(0.5, 3.0) valid between(1.0, 2.0) default 2.0;
    }
    /// pressure that the tool takes
    gives "p" Pressure;
    value |f| {
        let by_weight = f.reference_loss * (f.density / f.reference_density);
        by_weight * (f.flow_rate / f.reference_flow_rate).powf(f.flow_exponent)
    }
}

formula! {
    /// Parasitic loss at which the bit gets the most hydraulic power, when pump pressure is the limit.
    pub struct ParasiticForPower;
    slug "parasitic-loss-for-power";
    equation "pd = p / (m + 1)";
    law Homogeneous;
    source "Kendall & Goins 1960; Guo & Liu, Applied Drilling Circulation Systems 2011, eqs. 4.5-4.7";
    given {
        /// pressure that the pump may have
        pressure "p" Pressure must NON_NEGATIVE;
        /// flow exponent of the parasitic loss
        flow_exponent "m" Ratio must between(0.5, 3.0) valid between(1.0, 2.0);
    }
    /// parasitic loss
    gives "pd" Pressure;
    value |f| f.pressure / (f.flow_exponent + 1.0)
}

formula! {
    /// Parasitic loss at which the jets hit hardest, when pump pressure is the limit.
    pub struct ParasiticForImpact;
    slug "parasitic-loss-for-impact";
    equation "pd = 2 p / (m + 2)";
    law Homogeneous;
    source "Kendall & Goins 1960; Guo & Liu, Applied Drilling Circulation Systems 2011, eqs. 4.8-4.10";
    given {
        /// pressure that the pump may have
        pressure "p" Pressure must NON_NEGATIVE;
        /// flow exponent of the parasitic loss
        flow_exponent "m" Ratio must between(0.5, 3.0) valid between(1.0, 2.0);
    }
    /// parasitic loss
    gives "pd" Pressure;
    value |f| 2.0 * f.pressure / (f.flow_exponent + 2.0)
}

formula! {
    /// Parasitic loss at which the jets hit hardest, when pump power is the limit: at that flow the pump's pressure is power over flow.
    ///
    /// Hydraulic power at the bit has no such optimum: it grows as the flow falls, down to the flow that cleans the hole.
    pub struct ParasiticForImpactAtPower;
    slug "parasitic-loss-for-impact-at-power";
    equation "pd = p / (m + 2)";
    law Homogeneous;
    source "extreme of Q √(P/Q - C Q^m) over Q";
    given {
        /// pressure of the pump at its full power and this flow
        pressure "p" Pressure must NON_NEGATIVE;
        /// flow exponent of the parasitic loss
        flow_exponent "m" Ratio must between(0.5, 3.0) valid between(1.0, 2.0);
    }
    /// parasitic loss
    gives "pd" Pressure;
    value |f| f.pressure / (f.flow_exponent + 2.0)
}

formula! {
    /// Flow at which the parasitic loss has a wanted value, from one known point.
    ///
    /// The known point must be parasitic too: pump pressure less bit. With the whole pump pressure the flow comes out too low.
    pub struct FlowAtParasitic;
    slug "flow-at-parasitic-loss";
    equation "Q = Q1 (pd/pd1)^(1/m)";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations, 2nd ed. 2002, ch. 5, with the parasitic loss in place of the pump pressure";
    given {
        /// flow of the known point
        flow_rate "Q1" FlowRate must POSITIVE;
        /// parasitic loss of the known point
        known_loss "pd1" Pressure must POSITIVE;
        /// parasitic loss wanted
        wanted_loss "pd" Pressure must NON_NEGATIVE;
        /// flow exponent of the parasitic loss
        flow_exponent "m" Ratio must between(0.5, 3.0) valid between(1.0, 2.0);
    }
    /// flow rate
    gives "Q" FlowRate;
    value |f| f.flow_rate * (f.wanted_loss / f.known_loss).powf(1.0 / f.flow_exponent)
}

/// A set of nozzles of two neighbouring sizes, in 32nds of an inch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NozzleSet {
    /// The smaller size. [1/32 in]
    pub size: u32,
    /// How many have the smaller size.
    pub smaller: u32,
    /// How many are one 32nd larger.
    pub larger: u32,
}

impl NozzleSet {
    /// Total flow area. [m²]
    pub fn area(&self) -> f64 {
        let area = |nozzles: u32, size: u32| {
            NozzleArea { nozzles: f64::from(nozzles), nozzle_diameter: f64::from(size) * INCH / 32.0 }.value()
        };
        area(self.smaller, self.size) + area(self.larger, self.size + 1)
    }
}

/// Smallest and largest nozzle on sale. [1/32 in] (common practice)
pub const NOZZLE_SIZES: (u32, u32) = (6, 32);

/// The set of nozzles, sizes within one 32nd of each other, whose area comes closest to a wanted one; `None` without nozzles.
pub fn choose_nozzles(nozzles: u32, flow_area: f64) -> Option<NozzleSet> {
    let (least, most) = NOZZLE_SIZES;
    let sets = (least..=most).flat_map(|size| {
        let larger = if size < most { 0..nozzles } else { 0..nozzles.min(1) };
        larger.map(move |larger| NozzleSet { size, smaller: nozzles - larger, larger })
    });
    let miss = |set: &NozzleSet| (set.area() - flow_area).abs();
    sets.min_by(|a, b| miss(a).total_cmp(&miss(b)))
}
