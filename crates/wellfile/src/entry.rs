//! One row of the entry table: a thing that a user can write.
//!
//! Rows are made by short constructors and refined by chained calls, all `const`, so that a row reads as a
//! line: `quantity("section[].mud.weight", Density, "10 ppg", "mud weight at surface").knob(&MUD_WEIGHT)`.

use crate::knob::Knob;
use rigwright_physics::Range;
use rigwright_units::Kind;

/// A thing that a user can write.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    /// Where it stands: `section[].mud.weight`; those of the rig file begin with `rig.`.
    pub path: &'static str,
    /// What it looks like.
    pub form: Form,
    /// Outside this range it is refused. [SI]
    pub must: Range,
    /// What its absence means.
    pub presence: Presence,
    /// What it is: a phrase, shown in files, forms and hints.
    pub help: &'static str,
    /// How it may be written; the starter files are made of these.
    pub example: &'static str,
    /// For inputs that the crew may choose: how to turn it.
    pub knob: Option<&'static Knob>,
}

/// What an entry looks like in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A table of entries, `[mast]`.
    Table,
    /// A list of tables, `[[section]]`.
    Tables,
    /// Text with a number and a unit, `"10 ppg"`.
    Quantity(Kind),
    /// A bare number, `0.25`; a share may also be text, `"25 %"`.
    Number(Kind),
    /// A whole number.
    Whole,
    /// Text.
    Text,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A day, `2026-10-02`.
    Date,
    /// One or two quantities: `["3 1/2 in", "5 1/2 in"]`; one stands for both.
    Pair(Kind),
    /// One or two of: equivalent mud weight, gradient, pressure; at top and base, or one for the whole layer.
    FormationPressure,
    /// Quantities by key in one table, `{ 8 = "600 klbf", 10 = "680 klbf" }`. A kind without unit is a bare number.
    Pairs {
        /// Kind of the keys.
        key: Kind,
        /// Kind of the values.
        value: Kind,
    },
    /// Nozzles of a bit: `"3x20, 1x16"`, number and size in 32nds of an inch.
    Nozzles,
    /// Rows of measured depth, inclination and azimuth.
    Stations,
}

impl Form {
    /// In plain words, for messages: "text with a unit, such as".
    pub const fn words(self) -> &'static str {
        match self {
            Form::Table => "a table",
            Form::Tables => "a list of tables",
            Form::Quantity(_) => "text with a unit",
            Form::Number(_) => "a number",
            Form::Whole => "a whole number",
            Form::Text => "text",
            Form::Choice(_) => "one of a few words",
            Form::Date => "a day",
            Form::Pair(_) => "one or two texts with a unit",
            Form::FormationPressure => "text with a unit, or two of them",
            Form::Pairs { .. } => "a table of pairs",
            Form::Nozzles => "text",
            Form::Stations => "a list of rows",
        }
    }
}

/// What it means when an entry is absent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Presence {
    /// It must be there. A required table need not be written when all in it has defaults.
    Required,
    /// This is used instead, and listed as an assumption.
    Default {
        /// The value, as a user would write it.
        text: &'static str,
        /// Where it comes from.
        source: &'static str,
    },
    /// Worked out from other entries, and listed as an assumption.
    Computed {
        /// How.
        text: &'static str,
        /// Where that comes from.
        source: &'static str,
    },
    /// Required in some cases only; says in which.
    Needed(&'static str),
    /// Answers that need it are `unknown`.
    Unknown,
    /// Nothing: a remark, or a part that this well or rig does not have.
    Optional,
}

/// A row with a quantity that is written with its unit.
pub(crate) const fn quantity(path: &'static str, kind: Kind, example: &'static str, help: &'static str) -> Entry {
    Entry { must: sane(kind), ..row(path, Form::Quantity(kind), example, help) }
}

/// A row with a bare number.
pub(crate) const fn number(path: &'static str, kind: Kind, example: &'static str, help: &'static str) -> Entry {
    Entry { must: sane(kind), ..row(path, Form::Number(kind), example, help) }
}

/// A row with a whole number, at least one unless said otherwise.
pub(crate) const fn whole(path: &'static str, example: &'static str, help: &'static str) -> Entry {
    Entry { must: Range::between(1.0, 10_000.0), ..row(path, Form::Whole, example, help) }
}

/// A row of any other form.
pub(crate) const fn row(path: &'static str, form: Form, example: &'static str, help: &'static str) -> Entry {
    Entry { path, form, must: Range::ANY, presence: Presence::Required, help, example, knob: None }
}

/// A table of entries.
pub(crate) const fn table(path: &'static str, help: &'static str) -> Entry {
    row(path, Form::Table, "", help)
}

/// A list of tables.
pub(crate) const fn tables(path: &'static str, help: &'static str) -> Entry {
    row(path, Form::Tables, "", help)
}

impl Entry {
    pub(crate) const fn must(self, must: Range) -> Entry {
        Entry { must, ..self }
    }

    pub(crate) const fn default(self, text: &'static str, source: &'static str) -> Entry {
        Entry { presence: Presence::Default { text, source }, ..self }
    }

    pub(crate) const fn computed(self, text: &'static str, source: &'static str) -> Entry {
        Entry { presence: Presence::Computed { text, source }, ..self }
    }

    pub(crate) const fn needed(self, when: &'static str) -> Entry {
        Entry { presence: Presence::Needed(when), ..self }
    }

    pub(crate) const fn unknown(self) -> Entry {
        Entry { presence: Presence::Unknown, ..self }
    }

    pub(crate) const fn optional(self) -> Entry {
        Entry { presence: Presence::Optional, ..self }
    }

    pub(crate) const fn knob(self, knob: &'static Knob) -> Entry {
        Entry { knob: Some(knob), ..self }
    }

    /// The last word of its path, without brackets.
    pub fn key(&self) -> &'static str {
        let last = self.path.rsplit('.').next().unwrap_or(self.path);
        last.trim_end_matches("[]")
    }

    /// The example as it stands in a file: text between quotes, numbers bare.
    pub fn written_example(&self) -> String {
        let bare = match self.form {
            Form::Whole | Form::Date | Form::Pairs { .. } | Form::Stations => true,
            Form::Number(_) => self.example.parse::<f64>().is_ok(),
            _ => self.example.starts_with('['),
        };
        if bare { self.example.to_owned() } else { format!("\"{}\"", self.example) }
    }

    /// The kind of quantity, where it holds one.
    pub fn kind(&self) -> Option<Kind> {
        match self.form {
            Form::Quantity(kind) | Form::Number(kind) | Form::Pair(kind) => Some(kind),
            Form::FormationPressure => Some(Kind::Pressure),
            Form::Whole => Some(Kind::Count),
            Form::Nozzles => Some(Kind::Area),
            _ => None,
        }
    }
}

/// What a value of a kind may be on any rig on earth: catches slips such as metres for feet times ten, not
/// bold designs. [SI]
pub(crate) const fn sane(kind: Kind) -> Range {
    const fn above_zero_to(high: f64) -> Range {
        Range { low: 0.0, low_included: false, high, high_included: true }
    }
    match kind {
        Kind::Depth => Range::between(0.0, 15_000.0),
        Kind::Diameter => above_zero_to(2.0),
        Kind::Volume => Range::between(0.0, 100_000.0),
        Kind::FluidVolume => above_zero_to(10_000.0),
        Kind::Density => Range::between(100.0, 8_000.0),
        Kind::Pressure => Range::between(0.0, 350e6),
        Kind::Stress => Range::between(50e6, 3e9),
        Kind::ShearStress => Range::between(0.0, 1_000.0),
        Kind::Force => Range::between(0.0, 5e7),
        Kind::LinearMass => above_zero_to(5_000.0),
        Kind::Mass => Range::between(0.0, 1e7),
        Kind::Torque => Range::between(0.0, 1e6),
        Kind::Power => above_zero_to(5e7),
        Kind::FlowRate => above_zero_to(0.5),
        Kind::GasRate => above_zero_to(1_000.0),
        Kind::FuelRate => above_zero_to(0.01),
        Kind::Speed => above_zero_to(20.0),
        Kind::DrillingRate => above_zero_to(0.5),
        Kind::RotarySpeed => Range::between(0.0, 60.0),
        Kind::StrokeRate => above_zero_to(10.0),
        Kind::Temperature => Range::between(200.0, 700.0),
        Kind::TemperatureGradient => Range::between(0.0, 0.2),
        Kind::Time => above_zero_to(1e8),
        Kind::Fraction => Range::FRACTION,
        _ => Range::NON_NEGATIVE,
    }
}
