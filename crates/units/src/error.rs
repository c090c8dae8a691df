//! What can be wrong with a quantity that somebody wrote, in words that say what to write instead.

use crate::{Kind, units_of};
use std::fmt;

/// Why a text is not a quantity of the wanted kind. The message says what is wrong, [`UnitError::help`]
/// what to write.
#[derive(Clone, Debug, PartialEq)]
pub enum UnitError {
    /// Nothing was written.
    Empty {
        /// What was wanted.
        kind: Kind,
    },
    /// The text does not begin with a number.
    NotANumber {
        /// The text.
        text: String,
        /// What was wanted.
        kind: Kind,
    },
    /// A bare number where a unit must follow.
    NoUnit {
        /// The text.
        text: String,
        /// What was wanted.
        kind: Kind,
    },
    /// A unit that the table does not have.
    UnknownUnit {
        /// The unit.
        unit: String,
        /// The unit of the wanted kind that looks most like it.
        nearest: Option<&'static str>,
        /// What was wanted.
        kind: Kind,
    },
    /// A unit of something else.
    WrongKind {
        /// The unit.
        unit: String,
        /// What it measures.
        is: &'static [Kind],
        /// What was wanted.
        wanted: Kind,
    },
    /// A unit that means different things to different people.
    UnclearUnit {
        /// The unit.
        unit: String,
        /// Why, and what to write.
        help: &'static str,
        /// What was wanted.
        kind: Kind,
    },
    /// A number beyond what the computer can hold.
    TooLarge {
        /// The text.
        text: String,
        /// What was wanted.
        kind: Kind,
    },
    /// A temperature below absolute zero.
    BelowAbsoluteZero {
        /// The text.
        text: String,
    },
    /// A range whose first end is above its second.
    ReversedEnds {
        /// The text.
        text: String,
        /// What was wanted.
        kind: Kind,
    },
    /// A spread below zero.
    NegativeSpread {
        /// The text.
        text: String,
        /// What was wanted.
        kind: Kind,
    },
}

impl UnitError {
    /// The kind of quantity that was wanted.
    pub const fn kind(&self) -> Kind {
        match self {
            UnitError::Empty { kind }
            | UnitError::NotANumber { kind, .. }
            | UnitError::NoUnit { kind, .. }
            | UnitError::UnknownUnit { kind, .. }
            | UnitError::WrongKind { wanted: kind, .. }
            | UnitError::UnclearUnit { kind, .. }
            | UnitError::TooLarge { kind, .. }
            | UnitError::ReversedEnds { kind, .. }
            | UnitError::NegativeSpread { kind, .. } => *kind,
            UnitError::BelowAbsoluteZero { .. } => Kind::Temperature,
        }
    }

    /// What to write instead, with an example.
    pub fn help(&self) -> String {
        let example = example(self.kind());
        match self {
            UnitError::NotANumber { .. } => {
                format!("write e.g. {example}; decimals take a point, a comma only groups thousands (`7,000`)")
            }
            UnitError::UnknownUnit { nearest: Some(nearest), .. } => format!("did you mean `{nearest}`? write e.g. {example}"),
            UnitError::UnclearUnit { help, .. } => (*help).to_owned(),
            UnitError::ReversedEnds { .. } => "write the lower end first".to_owned(),
            UnitError::NegativeSpread { .. } => "write two standard deviations as a positive number after `+/-`".to_owned(),
            UnitError::BelowAbsoluteZero { .. } => "nothing is colder than -273.15 °C or -459.67 °F".to_owned(),
            _ => format!("write e.g. {example}"),
        }
    }
}

impl fmt::Display for UnitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            UnitError::Empty { kind } => write!(f, "nothing where {} should stand", kind.name()),
            UnitError::NotANumber { text, kind } => {
                let bare = units_of(*kind).any(|unit| unit.symbol.is_empty());
                write!(f, "`{text}` is not a number{}", if bare { "" } else { " with a unit" })
            }
            UnitError::NoUnit { text, kind } => write!(f, "`{text}` has no unit; {} needs one", kind.name()),
            UnitError::UnknownUnit { unit, kind, .. } => write!(f, "`{unit}` is not a unit of {}", kind.name()),
            UnitError::WrongKind { unit, is, wanted } => {
                let [first, ..] = is else { return write!(f, "`{unit}` is not a unit of {}", wanted.name()) };
                write!(f, "`{unit}` measures {}, not {}", first.name(), wanted.name())
            }
            UnitError::UnclearUnit { unit, .. } => write!(f, "`{unit}` is not clear"),
            UnitError::TooLarge { text, .. } => write!(f, "`{text}` is too large a number"),
            UnitError::BelowAbsoluteZero { text } => write!(f, "`{text}` is below absolute zero"),
            UnitError::ReversedEnds { text, .. } => write!(f, "`{text}` has its ends reversed"),
            UnitError::NegativeSpread { text, .. } => write!(f, "`{text}` has a negative spread"),
        }
    }
}

impl std::error::Error for UnitError {}

/// How a quantity of this kind is written: one or two examples, each in backticks.
pub const fn example(kind: Kind) -> &'static str {
    match kind {
        Kind::Depth => "`10,000 ft` or `3050 m`",
        Kind::Diameter => "`12 1/4 in` or `311 mm`",
        Kind::Roughness => "`0.0018 in` or `0.046 mm`",
        Kind::Area => "`0.589 in2` or `380 mm2`",
        Kind::Volume => "`120 bbl` or `19 m3`",
        Kind::FluidVolume => "`24.9 gal` or `94 L`",
        Kind::VolumePerStroke => "`0.1 bbl/stk` or `16 L/stk`",
        Kind::VolumePerLength => "`0.0178 bbl/ft` or `9.3 L/m`",
        Kind::SectionModulus => "`5.7 in3` or `93 cm3`",
        Kind::SecondMoment => "`14.3 in4` or `595 cm4`",
        Kind::Density => "`10 ppg` or `1.2 sg`",
        Kind::Pressure => "`3000 psi` or `200 bar`",
        Kind::AbsolutePressure => "`3000 psi abs` or `200 bar abs`",
        Kind::PressureGradient => "`0.465 psi/ft` or `0.105 bar/m`",
        Kind::Stress => "`75,000 psi` or `517 MPa`",
        Kind::ShearStress => "`12 lb/100 ft2` or `6 Pa`",
        Kind::ShearRate => "`511 1/s`",
        Kind::Viscosity => "`20 cP` or `20 mPa.s`",
        Kind::Consistency => "`0.9 lb.s^n/100 ft2` or `0.43 Pa.s^n`",
        Kind::Force => "`250 klbf` or `110 t`",
        Kind::ForcePerLength => "`120 lbf/ft` or `1750 N/m`",
        Kind::LinearMass => "`19.5 lb/ft` or `29 kg/m`",
        Kind::Mass => "`40,000 lb` or `18 t`",
        Kind::Torque => "`20 kft-lbf` or `27 kN.m`",
        Kind::Power => "`1500 hp` or `1100 kW`",
        Kind::PowerPerArea => "`2.5 hp/in2` or `2.9 W/mm2`",
        Kind::LineWork => "`250 ton-mile` or `365 t-km`",
        Kind::WorkPerLength => "`17 ton-mile/ft` or `81 t-km/m`",
        Kind::Energy => "`500 kWh` or `1800 MJ`",
        Kind::FlowRate => "`600 gpm` or `2300 L/min`",
        Kind::GasRate => "`20 MMscf/d` or `570000 m3/d`",
        Kind::FuelRate => "`60 gal/h` or `230 L/h`",
        Kind::Speed => "`120 ft/min` or `37 m/min`",
        Kind::JetSpeed => "`330 ft/s` or `100 m/s`",
        Kind::DrillingRate => "`60 ft/h` or `18 m/h`",
        Kind::Acceleration => "`9.80665 m/s2` or `0.052 psi/ft/ppg`",
        Kind::RotarySpeed => "`120 rpm`",
        Kind::StrokeRate => "`60 spm`",
        Kind::Angle => "`32.5 deg`",
        Kind::Curvature => "`3 deg/100 ft` or `3 deg/30 m`",
        Kind::Time => "`20 min` or `1.5 h`",
        Kind::Temperature => "`150 degF` or `65 degC`",
        Kind::TemperatureChange => "`10 degF` or `5 degC`",
        Kind::TemperatureGradient => "`1.6 degF/100 ft` or `3 degC/100 m`",
        Kind::Expansion => "`6.9e-6 1/degF` or `1.24e-5 1/degC`",
        Kind::Compressibility => "`3e-6 1/psi` or `4.4e-5 1/bar`",
        Kind::MolarMass => "`16.04 g/mol`",
        Kind::SpecificHeat => "`1 Btu/(lb.degF)` or `4187 J/(kg.K)`",
        Kind::Conductivity => "`25 Btu/(h.ft.degF)` or `43 W/(m.K)`",
        Kind::HeatTransfer => "`30 Btu/(h.ft2.degF)` or `170 W/(m2.K)`",
        Kind::HeatingValue => "`18,400 Btu/lb` or `42.8 MJ/kg`",
        Kind::ApparentPower => "`1750 kVA`",
        Kind::Permeability => "`150 mD`",
        Kind::MassFlow => "`600 lb/min` or `4.5 kg/s`",
        Kind::Filtrate => "`6.4 mL` or `6.4 cm3`",
        Kind::Cost => "`12,500`",
        Kind::PricePerMass => "`190 per t` or `0.1 per lb`",
        Kind::PricePerVolume => "`95 per bbl` or `600 per m3`",
        Kind::Fraction => "`85 %` or `0.85`",
        Kind::Ratio => "`1.6`",
        Kind::Count => "`8`",
        Kind::Dial => "`48`",
    }
}
