//! The best flow and nozzle area for a bit: hydraulic power or impact, within what pump and hole allow.

use super::bit::*;
use crate::{Formula, Recorder, numerics};

/// What is to be made as large as it can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Aim {
    /// Hydraulic power at the bit.
    Power,
    /// Impact of the jets.
    Impact,
}

/// What the optimum has to keep to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Pressure that liner and surface lines allow. [Pa]
    pub pressure: f64,
    /// Hydraulic power that the pumps give. [W]
    pub power: f64,
    /// Flow that cleans the hole. [m³/s]
    pub least_flow: f64,
    /// Flow that pumps, tools and hole allow. [m³/s]
    pub most_flow: f64,
}

/// Parasitic loss as a power of the flow, through a known point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parasitic {
    /// Flow of the known point. [m³/s]
    pub flow_rate: f64,
    /// Loss at the known point. [Pa]
    pub loss: f64,
    /// Flow exponent. [-]
    pub flow_exponent: f64,
}

impl Parasitic {
    /// Loss at a flow. [Pa]
    pub fn at(&self, flow_rate: f64) -> f64 {
        self.loss * (flow_rate / self.flow_rate).powf(self.flow_exponent)
    }
}

/// The best flow, and what the bit should take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Optimum {
    /// Flow rate. [m³/s]
    pub flow_rate: f64,
    /// Pressure at the pump. [Pa]
    pub pump_pressure: f64,
    /// Pressure left for the bit. [Pa]
    pub bit_pressure_loss: f64,
    /// Total flow area of the nozzles. [m²]
    pub flow_area: f64,
}

/// The best flow and nozzle area within the bounds; `None` when nothing is left for the bit.
///
/// Where pump power is the limit (at low pressure and high flow) impact has its own optimum, and power at the bit only grows as the flow falls,
/// so that the best flow is where the pump's power line meets its pressure limit.
pub fn optimum<R: Recorder>(aim: Aim, parasitic: &Parasitic, bounds: &Bounds, mud: (f64, f64), rec: &mut R) -> Option<Optimum> {
    let (density, discharge_coefficient) = mud;
    let Parasitic { flow_rate, loss, flow_exponent } = *parasitic;
    let pressure = bounds.pressure;
    // The limit is pressure up to the flow where the power is used up, power above it.
    let corner = bounds.power / pressure;
    let wanted_loss = match aim {
        Aim::Power => rec.take(ParasiticForPower { pressure, flow_exponent }),
        Aim::Impact => rec.take(ParasiticForImpact { pressure, flow_exponent }),
    };
    let at_pressure = rec.take(FlowAtParasitic { flow_rate, known_loss: loss, wanted_loss, flow_exponent });
    let best = if at_pressure <= corner {
        at_pressure
    } else {
        match aim {
            Aim::Power => corner,
            Aim::Impact => at_power_limit(parasitic, bounds.power).max(corner),
        }
    };
    let flow_rate = best.min(bounds.most_flow).max(bounds.least_flow);
    if !(bounds.least_flow..=bounds.most_flow).contains(&best) {
        rec.note(|| "flow kept between what cleans the hole and what pumps, tools and hole allow".to_owned());
    }
    let pump_pressure = pressure.min(bounds.power / flow_rate);
    let bit_pressure_loss = pump_pressure - parasitic.at(flow_rate);
    if bit_pressure_loss <= 0.0 || !bit_pressure_loss.is_finite() {
        return None;
    }
    let flow_area = rec.take(NozzleAreaForPressure { density, flow_rate, bit_pressure_loss, discharge_coefficient });
    Some(Optimum { flow_rate, pump_pressure, bit_pressure_loss, flow_area })
}

/// Flow at which the parasitic loss is 1/(m + 2) of the pump's pressure at full power.
fn at_power_limit(parasitic: &Parasitic, power: f64) -> f64 {
    let excess = |flow: f64| {
        let pressure = power / flow;
        parasitic.at(flow) - ParasiticForImpactAtPower { pressure, flow_exponent: parasitic.flow_exponent }.value()
    };
    let (mut low, mut high) = (parasitic.flow_rate, parasitic.flow_rate);
    for _ in 0..60 {
        if excess(low) < 0.0 {
            break;
        }
        low /= 2.0;
    }
    for _ in 0..60 {
        if excess(high) > 0.0 {
            break;
        }
        high *= 2.0;
    }
    numerics::root(excess, low, high).unwrap_or(parasitic.flow_rate)
}
