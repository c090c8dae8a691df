//! The words of a paper one by one, for a page that lays them out by itself: the same words as on the sheet, from the
//! same functions.

use crate::sheet::{CAUTIONS, link, place_name, plain_name, remedy, tally, unknown_entries};
use crate::subject::{Subject, ease};
use crate::text::Style;
use crate::working::{conclusion, equation_unit, in_numbers, range_words, ranges};
use rigwright_margins::due::Standing;
use rigwright_margins::{Asked, Judged, Remedy, SYSTEMS};
use rigwright_physics::{FormulaRecord, Kind, Range};
use rigwright_units::{System, show_exact, show_exact_in};
use rigwright_well::Fit;
use rigwright_wellfile::Ease;

/// What every paper and page carries.
pub const CAUTION: [&str; 4] = CAUTIONS;

/// A share in per cent, rounded up: nothing looks to hold that does not.
pub fn percent(share: f64) -> String {
    crate::grid::percent(share)
}

/// How soon a knob can be turned.
pub fn ease_words(of: Ease) -> &'static str {
    ease(of)
}

/// The judgement in one sentence, with exact figures.
pub fn conclusion_words(asked: &Asked, units: System) -> String {
    conclusion(asked, units)
}

/// What a range of a kind says: "from 8 to 20 ppg".
pub fn range_text(range: &Range, kind: Kind, units: System) -> String {
    range_words(range, kind, units)
}

/// A concrete path in words: `section[1].slow_rate[0]` is "slow rate 1 of 12 1/4 in".
pub fn path_words(fit: &Fit, path: &str) -> String {
    place_name(fit, path)
}

/// What is not looked at yet: a system and the plain names.
pub fn not_looked_at() -> Vec<(&'static str, Vec<String>)> {
    let named = SYSTEMS.iter().map(|system| (system.name, system.not_yet.iter().map(|(slug, _)| plain_name(slug)).collect()));
    named.filter(|(_, names): &(_, Vec<String>)| !names.is_empty()).collect()
}

/// What every list of tests and drills carries.
pub const DUE_CAUTION: &str = crate::due::CAUTION;

/// What is said where no rule of tests and drills is known.
pub const NOTHING_DUE: &str = crate::due::NOTHING;

/// How a test or drill stands, and whether the eye should find it first.
pub fn standing_words(standing: Standing) -> (String, bool) {
    let (words, style) = crate::due::standing(standing);
    (words, style == Style::Strong)
}

impl<'a> Subject<'a> {
    /// One answer in a sentence: what, where, how much of what, what is left.
    pub fn link(&self, asked: &Asked) -> String {
        link(self, asked)
    }

    /// How many answers came out how.
    pub fn tally(&self) -> String {
        tally(self)
    }

    /// What mends an answer, what that makes of it and what it spoils.
    pub fn remedy_words(&self, asked: &Asked) -> String {
        remedy(self, asked)
    }

    /// A turn of a knob: "mud weight from 11.50 ppg to 11.30 ppg".
    pub fn turn_words(&self, remedy: &Remedy) -> String {
        self.turn(remedy)
    }

    /// The situation of an answer: "pulling out, bit at 7,190 ft of 11,000 ft".
    pub fn moment_words(&self, asked: &Asked) -> String {
        self.situation(asked)
    }

    /// A demand and its limit: the demand rounded up, the limit down.
    pub fn demand_words(&self, asked: &Asked, judged: &Judged) -> String {
        self.demand_and_limit(asked, judged)
    }

    /// What is left and what was wanted.
    pub fn left_words(&self, asked: &Asked, judged: &Judged) -> String {
        self.left(asked, judged)
    }

    /// The entries that answers miss, each with the answers that need it.
    pub fn unknowns(&self) -> Vec<(&'static str, Vec<&'a Asked>)> {
        unknown_entries(self)
    }

    /// The values that nobody wrote: path, value and source, equal ones taken together.
    pub fn assumptions(&self) -> Vec<(&'static str, String, &'static str)> {
        crate::sheet::assumed(self).into_iter().map(|assumed| (assumed.path, assumed.value, assumed.source)).collect()
    }

    /// What the methods take for granted, each with the titles of the questions that rest on it.
    pub fn method_words(&self) -> Vec<(&'static str, Vec<&'static str>)> {
        let methods = crate::sheet::methods(self).into_iter();
        methods.map(|method| (method.text, method.questions.into_iter().map(|(_, title)| title).collect())).collect()
    }

    /// The dated readings: where, the day, the age in days.
    pub fn reading_ages(&self) -> Vec<(String, String, i32)> {
        let readings = crate::sheet::readings(self).into_iter();
        readings.map(|reading| (place_name(self.fit, &reading.path), reading.date.to_string(), reading.age)).collect()
    }

    /// The moment of the paper.
    pub fn moment(&self) -> String {
        self.as_of()
    }
}

/// One formula of a working in words.
pub struct StepWords {
    /// A row for each sign: the sign, its value in the reader's unit, the value in the equation's unit where that is
    /// another, what it stands for.
    pub signs: Vec<[String; 4]>,
    /// The equation with its numbers put in, and the result.
    pub results: Vec<String>,
    /// What the source vouches for, and what lies outside it.
    pub ranges: Vec<String>,
}

/// One formula of a working in words.
pub fn step_words(record: &FormulaRecord, inputs: &[f64], value: f64, units: System) -> StepWords {
    let row = |(symbol, value): (&rigwright_physics::Symbol, &f64)| {
        let read = show_exact(*value, symbol.kind, units);
        let wanted = show_exact_in(*value, equation_unit(record, symbol.kind));
        let wanted = if wanted == read { String::new() } else { wanted };
        [symbol.sign.to_owned(), read, wanted, symbol.meaning.trim().to_owned()]
    };
    StepWords {
        signs: record.symbols.iter().zip(inputs).map(row).collect(),
        results: in_numbers(record, inputs, value, units),
        ranges: ranges(record, inputs, units),
    }
}
