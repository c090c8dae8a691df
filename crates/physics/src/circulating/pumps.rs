//! Mud pumps: output per stroke, flow, speed and the power to drive them.
//!
//! A stroke is one turn of the crank: every piston has gone once to and fro. A counter on one piston of a duplex counts the same.

use crate::{Formula, FormulaRecord, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    SingleActingOutput::RECORD,
    DoubleActingOutput::RECORD,
    PumpFlow::RECORD,
    PumpSpeed::RECORD,
    PumpInputPower::RECORD,
    PressureAtPower::RECORD,
];

formula! {
    /// Output per stroke of a single-acting pump: a triplex has three cylinders.
    pub struct SingleActingOutput;
    slug "single-acting-pump-output";
    equation "q = N π/4 D² S η";
    law Homogeneous;
    source "swept volume; in field units 0.000243 D² S bbl for three cylinders, which holds all three";
    given {
        /// number of cylinders
        cylinders "N" Count must NON_NEGATIVE default 3.0;
        /// liner diameter
        liner_diameter "D" Diameter must NON_NEGATIVE;
        /// stroke
        stroke "S" Diameter must NON_NEGATIVE;
        /// volumetric efficiency
        volumetric_efficiency "η" Fraction must EFFICIENCY valid between(0.8, 1.0);
    }
    /// pump output
    gives "q" VolumePerStroke;
    value |f| f.cylinders * PI / 4.0 * f.liner_diameter * f.liner_diameter * f.stroke * f.volumetric_efficiency
}

formula! {
    /// Output per stroke of a double-acting pump: a duplex has two cylinders, each pumping on both sides of its piston.
    pub struct DoubleActingOutput;
    slug "double-acting-pump-output";
    equation "q = N π/4 (2 D² - d²) S η";
    law Homogeneous;
    source "swept volume; in field units 0.000162 S (2 D² - d²) bbl for two cylinders";
    given {
        /// number of cylinders
        cylinders "N" Count must NON_NEGATIVE default 2.0;
        /// liner diameter
        liner_diameter "D" Diameter must NON_NEGATIVE;
        /// rod diameter
        rod_diameter "d" Diameter must NON_NEGATIVE;
        /// stroke
        stroke "S" Diameter must NON_NEGATIVE;
        /// volumetric efficiency
        volumetric_efficiency "η" Fraction must EFFICIENCY valid between(0.7, 1.0);
    }
    /// pump output
    gives "q" VolumePerStroke;
    value |f| {
        let area = PI / 4.0 * (2.0 * f.liner_diameter * f.liner_diameter - f.rod_diameter * f.rod_diameter);
        f.cylinders * area * f.stroke * f.volumetric_efficiency
    }
}

formula! {
    /// Flow of like pumps running at one speed.
    pub struct PumpFlow;
    slug "pump-flow";
    equation "Q = N q s";
    law Homogeneous;
    source "continuity";
    given {
        /// number of pumps
        pumps "N" Count must NON_NEGATIVE default 1.0;
        /// pump output per stroke
        pump_output "q" VolumePerStroke must NON_NEGATIVE;
        /// pump speed
        pump_speed "s" StrokeRate must NON_NEGATIVE;
    }
    /// flow rate
    gives "Q" FlowRate;
    value |f| f.pumps * f.pump_output * f.pump_speed
}

formula! {
    /// Speed at which like pumps share a flow.
    pub struct PumpSpeed;
    slug "pump-speed";
    equation "s = Q / (N q)";
    law Homogeneous;
    source "continuity";
    given {
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// number of pumps
        pumps "N" Count must ONE_OR_MORE default 1.0;
        /// pump output per stroke
        pump_output "q" VolumePerStroke must POSITIVE;
    }
    /// pump speed
    gives "s" StrokeRate;
    value |f| f.flow_rate / (f.pumps * f.pump_output)
}

formula! {
    /// Power that the pumps take at their input shafts.
    pub struct PumpInputPower;
    slug "pump-input-power";
    equation "P = p Q / η";
    law Homogeneous;
    source "mechanics; in field units p Q/(1714 η) hp";
    given {
        /// pressure at the pump
        pressure "p" Pressure must NON_NEGATIVE;
        /// flow rate
        flow_rate "Q" FlowRate must NON_NEGATIVE;
        /// mechanical efficiency
        mechanical_efficiency "η" Fraction must EFFICIENCY valid between(0.7, 1.0);
    }
    /// input power
    gives "P" Power;
    value |f| f.pressure * f.flow_rate / f.mechanical_efficiency
}

formula! {
    /// Pressure that the input power of the pumps allows at a flow.
    pub struct PressureAtPower;
    slug "pressure-at-pump-power";
    equation "p = P η / Q";
    law Homogeneous;
    source "mechanics";
    given {
        /// input power
        power "P" Power must NON_NEGATIVE;
        /// mechanical efficiency
        mechanical_efficiency "η" Fraction must EFFICIENCY valid between(0.7, 1.0);
        /// flow rate
        flow_rate "Q" FlowRate must POSITIVE;
    }
    /// pressure
    gives "p" Pressure;
    value |f| f.power * f.mechanical_efficiency / f.flow_rate
}
