//! How the stress in a mud grows with the shear rate, and how the viscometer tells it.
//!
//! The viscometer has six speeds. The trade takes 300 rpm as 511 1/s, that is 1.7033 1/s per rpm (from the radii
//! of bob and sleeve it is 1.7023), and reads a degree of the dial as 1 lbf/100 ft²; the spring makes it 1.067.
//! API RP 13D has both forms; here the trade's is the default ([`DialConvention`]), so that yield point,
//! consistency and printed examples agree. The other raises every laminar loss by 6.7 %.

use crate::field::{CENTIPOISE, POUND_PER_100_FEET_SQUARED};
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    DialStress::RECORD,
    ViscometerShearRate::RECORD,
    PlasticViscosity::RECORD,
    YieldPoint::RECORD,
    FlowIndex::RECORD,
    ConsistencyIndex::RECORD,
    LowShearYield::RECORD,
    HerschelBulkleyStress::RECORD,
    ApparentViscosity::RECORD,
];

/// Shear rate of the viscometer per speed of its sleeve, by the trade's 511 1/s at 300 rpm. [1/s per rad/s]
pub const SHEAR_PER_SPEED: f64 = 511.0 / 300.0 * 30.0 / std::f64::consts::PI;

/// Shear rate at 600 rpm. [1/s]
pub const SHEAR_600: f64 = 1022.0;
/// Shear rate at 300 rpm. [1/s]
pub const SHEAR_300: f64 = 511.0;

/// Flow indices below this have no meaning for a mud. [-]
pub const LEAST_INDEX: f64 = 0.1;
/// Flow indices above this have no meaning for a mud. [-]
pub const LARGEST_INDEX: f64 = 1.5;

/// What a degree of the dial stands for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DialConvention {
    /// A degree is 1 lbf/100 ft² of stress: the trade's reading, that of printed examples.
    #[default]
    Trade,
    /// A degree is 1.067 lbf/100 ft², as the standard spring is made (F1, 5.11 dyn/cm²; from memory).
    Spring,
}

impl DialConvention {
    /// Stress of a degree. [Pa]
    pub const fn stress_per_degree(self) -> f64 {
        match self {
            DialConvention::Trade => POUND_PER_100_FEET_SQUARED,
            DialConvention::Spring => 1.067 * POUND_PER_100_FEET_SQUARED,
        }
    }
}

formula! {
    /// Stress at the bob of the viscometer from the reading of its dial.
    pub struct DialStress;
    slug "dial-stress";
    equation "τ = c θ";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory); common practice for 1 lbf/100 ft² per degree";
    given {
        /// dial reading
        dial "θ" Dial must NON_NEGATIVE valid between(0.0, 330.0);
        /// stress of a degree
        stress_per_degree "c" ShearStress must POSITIVE default POUND_PER_100_FEET_SQUARED;
    }
    /// stress
    gives "τ" ShearStress;
    value |f| f.dial * f.stress_per_degree
}

formula! {
    /// Shear rate at the bob of the viscometer, as if the mud were Newtonian.
    ///
    /// The true rate of a shear-thinning mud is higher, by 7 % at a flow index of 0.5. Field practice lets it be.
    pub struct ViscometerShearRate;
    slug "viscometer-shear-rate";
    equation "γ = c ω";
    law Homogeneous;
    source "API RP 13D, 3rd ed. 1995: 511 1/s at 300 rpm (bob R1, sleeve B1)";
    given {
        /// speed of the sleeve
        rotary_speed "ω" RotarySpeed must NON_NEGATIVE;
        /// shear rate per speed
        shear_per_speed "c" Ratio must POSITIVE default SHEAR_PER_SPEED;
    }
    /// shear rate
    gives "γ" ShearRate;
    value |f| f.rotary_speed * f.shear_per_speed
}

formula! {
    /// Plastic viscosity: slope of the line through the readings at 600 and 300 rpm.
    pub struct PlasticViscosity;
    slug "plastic-viscosity";
    equation "PV = θ600 - θ300";
    law Empirical("°, cP");
    source "API RP 13D, 3rd ed. 1995";
    given {
        /// dial reading at 600 rpm
        dial_600 "θ600" Dial must NON_NEGATIVE;
        /// dial reading at 300 rpm
        dial_300 "θ300" Dial must NON_NEGATIVE;
    }
    /// plastic viscosity
    gives "PV" Viscosity;
    value |f| (f.dial_600 - f.dial_300) * CENTIPOISE
}

formula! {
    /// Yield point: where the line through the readings at 600 and 300 rpm meets no flow.
    pub struct YieldPoint;
    slug "yield-point";
    equation "YP = 2 θ300 - θ600";
    law Empirical("°, lbf/100 ft²");
    source "API RP 13D, 3rd ed. 1995: YP = θ300 - PV";
    given {
        /// dial reading at 600 rpm
        dial_600 "θ600" Dial must NON_NEGATIVE;
        /// dial reading at 300 rpm
        dial_300 "θ300" Dial must NON_NEGATIVE;
    }
    /// yield point
    gives "YP" ShearStress;
    value |f| (2.0 * f.dial_300 - f.dial_600) * POUND_PER_100_FEET_SQUARED
}

formula! {
    /// Flow index of a power law through two readings.
    ///
    /// The trade writes 3.32 for 1/log 2 (600 and 300 rpm) and 0.657 for 1/log(100/3) (100 and 3 rpm).
    pub struct FlowIndex;
    slug "flow-index";
    equation "n = log(τ1/τ2) / log r";
    law Homogeneous;
    source "API RP 13D, 3rd ed. 1995";
    given {
        /// stress, or reading less yield, at the higher speed
        upper_stress "τ1" ShearStress must POSITIVE;
        /// stress, or reading less yield, at the lower speed
        lower_stress "τ2" ShearStress must POSITIVE;
        /// higher speed over lower speed
        speed_ratio "r" Ratio must at_least(1.01) default 2.0;
    }
    /// flow index
    gives "n" Ratio;
    value |f| (f.upper_stress / f.lower_stress).ln() / f.speed_ratio.ln()
}

formula! {
    /// Consistency index from one reading and the flow index.
    pub struct ConsistencyIndex;
    slug "consistency-index";
    equation "K = τ / γ^n";
    law Homogeneous;
    source "API RP 13D, 3rd ed. 1995: K = R300/511^n and R100/170.2^n";
    given {
        /// stress, or reading less yield
        stress "τ" ShearStress must NON_NEGATIVE;
        /// shear rate of the reading
        shear_rate "γ" ShearRate must POSITIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
    }
    /// consistency index
    gives "K" Consistency;
    value |f| f.stress / f.shear_rate.powf(f.flow_index)
}

formula! {
    /// Low-shear yield: estimate of the yield stress from the two slowest readings.
    pub struct LowShearYield;
    slug "low-shear-yield";
    equation "τy = c (2 θ3 - θ6)";
    law Homogeneous;
    source "API RP 13D, 5th ed. 2006 (from memory); Guo & Liu, Applied Drilling Circulation Systems 2011, p. 26";
    given {
        /// dial reading at 6 rpm
        dial_6 "θ6" Dial must NON_NEGATIVE;
        /// dial reading at 3 rpm
        dial_3 "θ3" Dial must NON_NEGATIVE;
        /// stress of a degree
        stress_per_degree "c" ShearStress must POSITIVE default POUND_PER_100_FEET_SQUARED;
    }
    /// low-shear yield; below nought the mud has none
    gives "τy" ShearStress;
    value |f| (2.0 * f.dial_3 - f.dial_6) * f.stress_per_degree
}

formula! {
    /// Stress in a Herschel-Bulkley mud.
    ///
    /// With no yield stress it is a power law, with a flow index of 1 a Bingham plastic, with both a Newtonian fluid.
    pub struct HerschelBulkleyStress;
    slug "herschel-bulkley-stress";
    equation "τ = τy + K γ^n";
    law Homogeneous;
    source "Herschel & Bulkley 1926; API RP 13D, 5th ed. 2006 (from memory)";
    given {
        /// yield stress
        yield_stress "τy" ShearStress must NON_NEGATIVE;
        /// consistency index
        consistency "K" Consistency must NON_NEGATIVE;
        /// flow index
        flow_index "n" Ratio must between(LEAST_INDEX, LARGEST_INDEX) valid between(0.2, 1.0);
        /// shear rate
        shear_rate "γ" ShearRate must NON_NEGATIVE;
    }
    /// stress
    gives "τ" ShearStress;
    value |f| f.yield_stress + f.consistency * f.shear_rate.powf(f.flow_index)
}

formula! {
    /// Viscosity that a Newtonian fluid would show at this stress and shear rate.
    pub struct ApparentViscosity;
    slug "apparent-viscosity";
    equation "μa = τ / γ";
    law Homogeneous;
    source "definition of viscosity";
    given {
        /// stress
        stress "τ" ShearStress must NON_NEGATIVE;
        /// shear rate
        shear_rate "γ" ShearRate must POSITIVE;
    }
    /// apparent viscosity
    gives "μa" Viscosity;
    value |f| f.stress / f.shear_rate
}

/// Flow model of a fluid with its numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rheology {
    /// Stress in proportion to shear rate: water, brine, base oil.
    Newtonian {
        /// Viscosity. [Pa·s]
        viscosity: f64,
    },
    /// Stress rises in a line from the yield point.
    Bingham {
        /// Plastic viscosity. [Pa·s]
        plastic_viscosity: f64,
        /// Yield point. [Pa]
        yield_point: f64,
    },
    /// Stress by a power of the shear rate.
    PowerLaw {
        /// Consistency index. [Pa·sⁿ]
        consistency: f64,
        /// Flow index. [-]
        flow_index: f64,
    },
    /// Power law from a yield stress.
    HerschelBulkley {
        /// Yield stress. [Pa]
        yield_stress: f64,
        /// Consistency index. [Pa·sⁿ]
        consistency: f64,
        /// Flow index. [-]
        flow_index: f64,
    },
}

/// The three numbers of the widest model; every [`Rheology`] can be said in them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HerschelBulkley {
    /// Yield stress. [Pa]
    pub yield_stress: f64,
    /// Consistency index. [Pa·sⁿ]
    pub consistency: f64,
    /// Flow index. [-]
    pub flow_index: f64,
}

impl Rheology {
    /// The same fluid as a Herschel-Bulkley fluid.
    pub const fn herschel_bulkley(&self) -> HerschelBulkley {
        let (yield_stress, consistency, flow_index) = match *self {
            Rheology::Newtonian { viscosity } => (0.0, viscosity, 1.0),
            Rheology::Bingham { plastic_viscosity, yield_point } => (yield_point, plastic_viscosity, 1.0),
            Rheology::PowerLaw { consistency, flow_index } => (0.0, consistency, flow_index),
            Rheology::HerschelBulkley { yield_stress, consistency, flow_index } => (yield_stress, consistency, flow_index),
        };
        HerschelBulkley { yield_stress, consistency, flow_index }
    }

    /// Stress at a shear rate. [Pa]
    pub fn stress(&self, shear_rate: f64) -> f64 {
        self.herschel_bulkley().stress(shear_rate)
    }

    /// Shear rate under a stress; nought up to the yield stress. [1/s]
    pub fn shear_rate(&self, stress: f64) -> f64 {
        self.herschel_bulkley().shear_rate(stress)
    }
}

impl HerschelBulkley {
    /// Stress at a shear rate. [Pa]
    pub fn stress(&self, shear_rate: f64) -> f64 {
        let HerschelBulkley { yield_stress, consistency, flow_index } = *self;
        HerschelBulkleyStress { yield_stress, consistency, flow_index, shear_rate }.value()
    }

    /// Shear rate under a stress; nought up to the yield stress. [1/s]
    pub fn shear_rate(&self, stress: f64) -> f64 {
        ((stress - self.yield_stress).max(0.0) / self.consistency).powf(1.0 / self.flow_index)
    }
}

/// A power law of two numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerLaw {
    /// Consistency index. [Pa·sⁿ]
    pub consistency: f64,
    /// Flow index. [-]
    pub flow_index: f64,
}

impl PowerLaw {
    /// Through the stresses at two speeds of the viscometer, with the index kept between 0.1 and 1.5.
    pub fn through<R: Recorder>(upper: (f64, f64), lower: (f64, f64), rec: &mut R) -> PowerLaw {
        let ((upper_rate, upper_stress), (lower_rate, lower_stress)) = (upper, lower);
        let measured = rec.take(FlowIndex { upper_stress, lower_stress, speed_ratio: upper_rate / lower_rate });
        let flow_index = measured.clamp(LEAST_INDEX, LARGEST_INDEX);
        if !(LEAST_INDEX..=LARGEST_INDEX).contains(&measured) {
            rec.note(|| format!("flow index kept between {LEAST_INDEX} and {LARGEST_INDEX}"));
        }
        let consistency = rec.take(ConsistencyIndex { stress: lower_stress, shear_rate: lower_rate, flow_index });
        PowerLaw { consistency, flow_index }
    }
}
