//! One value of a file, taken as its entry wants it.

use crate::entry::{Entry, Form, Presence};
use crate::finding::Finding;
use crate::nearest::nearest;
use crate::report::Report;
use crate::sheet::{Held, Pair, RockPressure, Row, Value};
use crate::source::{Place, Source, steers};
use jiff::civil::Date;
use rigwright_physics::Range;
use rigwright_units::{Kind, Spread, Stated, UnitError, parse_stated, show_exact_in, unit_at_end, unit_named, units_of};
use std::sync::Arc;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

/// Names longer than this do not fit any sheet.
const LONGEST_TEXT: usize = 120;
/// More rows than any table of liners, loads or readings.
const MOST_PAIRS: usize = 100;
/// More rows than any survey.
const LONGEST_LIST: usize = 20_000;

/// Takes values of one file.
pub(crate) struct Taker<'a> {
    pub(crate) source: &'a Arc<Source>,
    pub(crate) report: &'a mut Report,
}

/// A number with its spread, and how it was written.
struct Figure {
    stated: Stated,
    text: String,
}

/// The default of an entry: taken with the entry table, whatever is read.
#[derive(Debug)]
pub(crate) struct Usual {
    entry: &'static Entry,
    value: Value,
    text: &'static str,
}

impl Usual {
    /// `None` for an entry that has no default.
    pub(crate) fn of(entry: &'static Entry) -> Option<Usual> {
        let Presence::Default { text, .. } = entry.presence else { return None };
        let value = match entry.form {
            Form::Quantity(kind) | Form::Number(kind) => Value::Number(rigwright_units::parse(text, kind).ok()?),
            Form::Whole => Value::Number(f64::from(text.parse::<u32>().ok()?)),
            Form::Text | Form::Choice(_) => Value::Text,
            _ => return None,
        };
        Some(Usual { entry, value, text })
    }

    /// As if it were written at `place`.
    pub(crate) fn at(&self, place: &Place) -> Held {
        let Usual { entry, ref value, text } = *self;
        Held { entry, value: value.clone(), place: place.clone(), text: text.to_owned(), spread: Spread::Exact, given: false }
    }
}

impl Taker<'_> {
    pub(crate) fn place(&self, span: std::ops::Range<usize>) -> Place {
        // The parser may point one past the end; a label must lie inside.
        let end = span.end.min(self.source.text.len());
        Place { source: self.source.clone(), span: span.start.min(end)..end }
    }

    /// The value as the entry wants it; otherwise findings say why not.
    pub(crate) fn take(&mut self, entry: &'static Entry, value: &Spanned<DeValue<'_>>) -> Option<Held> {
        let place = self.place(value.span());
        let whole_text = || self.source.slice(&value.span()).trim_matches('"').to_owned();
        let (value, spread, text) = match entry.form {
            Form::Quantity(kind) | Form::Number(kind) => {
                let figure = self.figure(entry, kind, value)?;
                (Value::Number(figure.stated.value), figure.stated.spread, figure.text)
            }
            Form::Whole => {
                let number = self.whole(entry, value)?;
                (Value::Number(f64::from(number)), Spread::Exact, number.to_string())
            }
            Form::Text => (Value::Text, Spread::Exact, self.text(entry, value)?),
            Form::Choice(words) => {
                let text = self.text(entry, value)?;
                if !words.contains(&text.as_str()) {
                    self.report.push(unknown_word(&text, words, &place, entry));
                    return None;
                }
                (Value::Text, Spread::Exact, text)
            }
            Form::Date => (Value::Day(self.day(entry, value)?), Spread::Exact, whole_text()),
            Form::Pair(kind) => {
                let [first, last] = self.both(entry, value, |taker, end| {
                    let Figure { stated, .. } = taker.figure(entry, kind, end)?;
                    Some((stated.value, stated.spread))
                })?;
                (Value::Ends([first.0, last.0]), first.1, whole_text())
            }
            Form::FormationPressure => {
                let [top, base] = self.both(entry, value, |taker, end| taker.rock_pressure(entry, end))?;
                (Value::Pressures([top.0, base.0]), top.1, whole_text())
            }
            Form::Pairs { key, value: kind } => (Value::Pairs(self.pairs(entry, key, kind, value)?), Spread::Exact, whole_text()),
            Form::Nozzles => {
                let text = self.text(entry, value)?;
                match crate::nozzles::parse(&text) {
                    Ok((number, flow_area)) => (Value::Nozzles { number, flow_area }, Spread::Exact, text),
                    Err(why) => {
                        let finding = Finding::error("well::nozzles", format!("`{text}` is not a set of nozzles"))
                            .at(&place, why)
                            .help(format!("write number x size in 32nds of an inch, such as `{}`", entry.example));
                        self.report.push(finding);
                        return None;
                    }
                }
            }
            Form::Stations => (Value::Stations(self.stations(entry, value)?), Spread::Exact, String::from("stations")),
            Form::Table | Form::Tables => return None,
        };
        Some(Held { entry, value, place, text, spread, given: true })
    }

    fn wrong_type(&mut self, entry: &Entry, value: &Spanned<DeValue<'_>>) {
        let found = match value.get_ref() {
            DeValue::String(_) => "text",
            DeValue::Integer(_) => "a bare number",
            DeValue::Float(_) => "a number with decimals",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date or time",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        let finding = Finding::error("well::wrong-type", format!("`{}` is {}, not {found}", entry.key(), entry.form.words()))
            .at(&self.place(value.span()), entry.help)
            .help(format!("write `{} = {}`", entry.key(), entry.written_example()));
        self.report.push(finding);
    }

    fn text(&mut self, entry: &Entry, value: &Spanned<DeValue<'_>>) -> Option<String> {
        let Some(text) = value.get_ref().as_str() else {
            self.wrong_type(entry, value);
            return None;
        };
        let text = text.trim();
        let why = if text.is_empty() {
            "nothing is written here"
        } else if text.chars().any(steers) {
            "it holds a line break or another sign that cannot be printed"
        } else if text.chars().count() > LONGEST_TEXT {
            "it is longer than 120 letters"
        } else {
            return Some(text.to_owned());
        };
        let finding = Finding::error("well::text", format!("`{}` cannot be used", entry.key()))
            .at(&self.place(value.span()), why)
            .help(format!("write `{} = \"{}\"`: {}", entry.key(), entry.example, entry.help));
        self.report.push(finding);
        None
    }

    fn whole(&mut self, entry: &Entry, value: &Spanned<DeValue<'_>>) -> Option<u32> {
        let Some(integer) = value.get_ref().as_integer() else {
            self.wrong_type(entry, value);
            return None;
        };
        let number = i64::from_str_radix(integer.as_str(), integer.radix()).ok().and_then(|number| u32::try_from(number).ok());
        match number.filter(|number| entry.must.contains(f64::from(*number))) {
            Some(number) => Some(number),
            None => {
                self.out_of_range(entry, &integer.to_string(), &self.place(value.span()), Kind::Count);
                None
            }
        }
    }

    fn day(&mut self, entry: &Entry, value: &Spanned<DeValue<'_>>) -> Option<Date> {
        let date = value.get_ref().as_datetime().and_then(|datetime| datetime.date);
        let day = date.and_then(|date| {
            Date::new(i16::try_from(date.year).ok()?, i8::try_from(date.month).ok()?, i8::try_from(date.day).ok()?).ok()
        });
        if day.is_none() {
            self.wrong_type(entry, value);
        }
        day
    }

    /// One number of the entry, in its range.
    fn figure(&mut self, entry: &Entry, kind: Kind, value: &Spanned<DeValue<'_>>) -> Option<Figure> {
        let text = match value.get_ref() {
            DeValue::String(text) => text.trim().to_owned(),
            DeValue::Integer(_) | DeValue::Float(_) => self.source.slice(&value.span()).replace('_', ""),
            _ => {
                self.wrong_type(entry, value);
                return None;
            }
        };
        if !value.get_ref().is_str() && unit_named("", kind).is_none() {
            let unit = usual_unit(entry);
            let finding =
                Finding::error("well::no-unit", format!("`{}` is a bare number; {} needs a unit", entry.key(), kind.name()))
                    .at(&self.place(value.span()), entry.help)
                    .help(format!("write `\"{text} {unit}\"` if that is the unit, and keep the quotes"));
            self.report.push(finding);
            return None;
        }
        match parse_stated(&text, kind) {
            Ok(stated) => self.in_range(entry, kind, Figure { stated, text }, value),
            Err(error) => {
                self.report.push(unit_finding(&error, &self.place(value.span()), entry));
                None
            }
        }
    }

    fn in_range(&mut self, entry: &Entry, kind: Kind, figure: Figure, value: &Spanned<DeValue<'_>>) -> Option<Figure> {
        let middle = figure.stated.value;
        let ends = match figure.stated.spread {
            Spread::Exact => [middle; 2],
            // Two standard deviations, as written.
            Spread::Normal { standard_deviation: s } => [middle - 2.0 * s, middle + 2.0 * s],
            Spread::Uniform { low, high } => [low, high],
        };
        if ends.iter().all(|end| entry.must.contains(*end)) {
            return Some(figure);
        }
        self.out_of_range(entry, &figure.text, &self.place(value.span()), kind);
        None
    }

    fn out_of_range(&mut self, entry: &Entry, text: &str, place: &Place, kind: Kind) {
        let finding = Finding::error("well::out-of-range", format!("`{}` cannot be `{text}`", entry.key()))
            .at(place, entry.help)
            .help(range_words(&entry.must, text, kind));
        self.report.push(finding);
    }

    /// Takes a list of two, or one value for both.
    fn both<'v, 'i: 'v, T: Copy>(
        &mut self,
        entry: &Entry,
        value: &'v Spanned<DeValue<'i>>,
        mut take: impl FnMut(&mut Self, &'v Spanned<DeValue<'i>>) -> Option<T>,
    ) -> Option<[T; 2]> {
        let DeValue::Array(list) = value.get_ref() else { return take(self, value).map(|one| [one; 2]) };
        match (list.first(), list.last(), list.len()) {
            (Some(one), _, 1) => take(self, one).map(|one| [one; 2]),
            (Some(first), Some(last), 2) => {
                let (first, last) = (take(self, first), take(self, last));
                Some([first?, last?])
            }
            (_, _, length) => {
                let message = format!("`{}` takes one value or two, not {length}", entry.key());
                let finding = Finding::error("well::list-length", message).at(&self.place(value.span()), entry.help);
                self.report.push(finding.help(format!("write `{} = {}`", entry.key(), entry.written_example())));
                None
            }
        }
    }

    fn rock_pressure(&mut self, entry: &Entry, value: &Spanned<DeValue<'_>>) -> Option<(RockPressure, Spread)> {
        const GRADIENT: Range = Range::between(0.0, 60e3);
        const FORMS: [(Kind, Range); 3] = [
            (Kind::Density, Range::between(0.0, 6_000.0)),
            (Kind::PressureGradient, GRADIENT),
            (Kind::Pressure, Range::between(0.0, 350e6)),
        ];
        const HELP: &str =
            "write an equivalent mud weight (`\"9.2 ppg\"`), a gradient (`\"0.48 psi/ft\"`) or a pressure (`\"3200 psi\"`)";
        let place = self.place(value.span());
        let Some(text) = value.get_ref().as_str() else {
            let finding =
                Finding::error("well::no-unit", format!("`{}` needs text with a unit", entry.key())).at(&place, entry.help);
            self.report.push(finding.help(HELP));
            return None;
        };
        let mut first_error = None;
        for (kind, must) in FORMS {
            match parse_stated(text, kind) {
                Ok(stated) => {
                    let ranged = Entry { must, ..*entry };
                    let figure = Figure { stated, text: text.trim().to_owned() };
                    let stated = self.in_range(&ranged, kind, figure, value)?.stated;
                    let pressure = match kind {
                        Kind::Density => RockPressure::Weight(stated.value),
                        Kind::PressureGradient => RockPressure::Gradient(stated.value),
                        _ => RockPressure::Pressure(stated.value),
                    };
                    return Some((pressure, stated.spread));
                }
                Err(error) => {
                    first_error.get_or_insert(error);
                }
            }
        }
        if let Some(error) = first_error {
            self.report.push(unit_finding(&error, &place, entry).help(HELP));
        }
        None
    }

    fn pairs(&mut self, entry: &Entry, key: Kind, kind: Kind, value: &Spanned<DeValue<'_>>) -> Option<Vec<Pair>> {
        let Some(table): Option<&DeTable<'_>> = value.get_ref().as_table() else {
            self.wrong_type(entry, value);
            return None;
        };
        if table.len() > MOST_PAIRS {
            let message = format!("`{}` has {} rows, too many for any table of this kind", entry.key(), table.len());
            self.report.push(Finding::error("well::list-length", message).at(&self.place(value.span()), entry.help));
            return None;
        }
        let mut pairs = Vec::with_capacity(table.len());
        let mut good = true;
        for (name, value) in table {
            let place = Place { span: name.span().start..value.span().end, ..self.place(value.span()) };
            let key = match parse_stated(name.get_ref(), key) {
                Ok(Stated { value, spread: Spread::Exact }) if value > 0.0 => Some(value),
                Ok(_) => {
                    let message = format!("`{}` cannot be a key of `{}`", name.get_ref(), entry.key());
                    let finding = Finding::error("well::key", message).at(&self.place(name.span()), entry.help);
                    self.report.push(finding.help(format!("write `{} = {}`", entry.key(), entry.example)));
                    None
                }
                Err(error) => {
                    self.report.push(unit_finding(&error, &self.place(name.span()), entry));
                    None
                }
            };
            let ranged = Entry { must: crate::entry::sane(kind), ..*entry };
            let figure = self.figure(&ranged, kind, value);
            match (key, figure) {
                (Some(key), Some(figure)) => pairs.push(Pair { key, value: figure.stated.value, place }),
                _ => good = false,
            }
        }
        pairs.sort_by(|a, b| a.key.total_cmp(&b.key));
        if pairs.is_empty() && good {
            let finding = Finding::error("well::empty", format!("`{}` has nothing in it", entry.key()))
                .at(&self.place(value.span()), entry.help);
            self.report.push(finding.help(format!("write `{} = {}`", entry.key(), entry.example)));
            return None;
        }
        good.then_some(pairs)
    }

    fn stations(&mut self, entry: &Entry, value: &Spanned<DeValue<'_>>) -> Option<Vec<Row>> {
        let Some(list): Option<&DeArray<'_>> = value.get_ref().as_array() else {
            self.wrong_type(entry, value);
            return None;
        };
        if list.is_empty() || list.len() > LONGEST_LIST {
            let finding = Finding::error("well::list-length", format!("a survey of {} stations cannot be used", list.len()))
                .at(&self.place(value.span()), entry.help);
            self.report.push(finding.help(format!("write `{} = {}`", entry.key(), entry.example)));
            return None;
        }
        let mut rows = Vec::with_capacity(list.len());
        let mut good = true;
        for row in list {
            match self.station(entry, row) {
                Some(row) => rows.push(row),
                None => good = false,
            }
        }
        good.then_some(rows)
    }

    fn station(&mut self, entry: &Entry, row: &Spanned<DeValue<'_>>) -> Option<Row> {
        let place = self.place(row.span());
        let Some([depth, inclination, azimuth]) = row
            .get_ref()
            .as_array()
            .and_then(|cells| cells.get(0..3))
            .filter(|_| row.get_ref().as_array().is_some_and(|cells| cells.len() == 3))
        else {
            let finding = Finding::error("well::station", "a station is measured depth, inclination and azimuth")
                .at(&place, "not three values");
            self.report.push(finding.help("write `[\"1000 ft\", \"2.5 deg\", \"140 deg\"]`"));
            return None;
        };
        let kinds = crate::entries::STATION;
        let cells = [depth, inclination, azimuth];
        let mut values = [0.0; 3];
        for ((slot, cell), kind) in values.iter_mut().zip(cells).zip(kinds) {
            let ranged = Entry { must: crate::survey::range(kind), form: Form::Quantity(kind), ..*entry };
            *slot = self.figure(&ranged, kind, cell)?.stated.value;
        }
        Some(Row { values, place })
    }
}

/// A finding for a quantity that could not be read.
pub(crate) fn unit_finding(error: &UnitError, place: &Place, entry: &Entry) -> Finding {
    let code = match error {
        UnitError::Empty { .. } => "well::empty",
        UnitError::NotANumber { .. } => "well::not-a-number",
        UnitError::NoUnit { .. } => "well::no-unit",
        UnitError::UnknownUnit { .. } => "well::unknown-unit",
        UnitError::WrongKind { .. } => "well::wrong-quantity",
        UnitError::UnclearUnit { .. } => "well::unclear-unit",
        UnitError::TooLarge { .. } => "well::too-large",
        UnitError::BelowAbsoluteZero { .. } => "well::below-absolute-zero",
        UnitError::ReversedEnds { .. } | UnitError::NegativeSpread { .. } => "well::spread",
    };
    Finding::error(code, error.to_string()).at(place, entry.help).help(error.help())
}

fn unknown_word(text: &str, words: &[&'static str], place: &Place, entry: &Entry) -> Finding {
    let list = words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
    let help = match nearest(text, words.iter().copied()) {
        Some(near) => format!("did you mean `{near}`? it is one of {list}"),
        None => format!("it is one of {list}"),
    };
    Finding::error("well::unknown-word", format!("`{}` cannot be `{text}`", entry.key())).at(place, entry.help).help(help)
}

/// The unit in an entry's example.
fn usual_unit(entry: &Entry) -> &'static str {
    let example = entry.example;
    let start = example.find(|c: char| c.is_alphabetic() || c == '%').unwrap_or(example.len());
    example[start..].trim_end_matches(['"', ']'])
}

/// A range in the unit that the user wrote.
fn range_words(range: &Range, text: &str, kind: Kind) -> String {
    let unit = unit_at_end(text, kind).or_else(|| units_of(kind).next());
    // Three digits are enough for a hint, rounded so that what is said holds.
    let print = |value: f64, round: fn(f64) -> f64| {
        let number = unit.map_or(value, |unit| unit.from_si(value));
        let digit = 10f64.powf(number.abs().max(1e-300).log10().floor() - 2.0);
        let rounded = if number == 0.0 { 0.0 } else { round(number / digit) * digit };
        unit.map_or_else(|| rounded.to_string(), |unit| show_exact_in(unit.to_si(rounded), unit))
    };
    let up = |number: f64| (number - 1e-6).ceil();
    let down = |number: f64| (number + 1e-6).floor();
    let end = |value: f64, included: bool, words: [&str; 2], round| {
        value.is_finite().then(|| format!("{} {}", if included { words[0] } else { words[1] }, print(value, round)))
    };
    let low = end(range.low, range.low_included, ["at least", "more than"], up);
    let high = end(range.high, range.high_included, ["at most", "less than"], down);
    match (low, high) {
        (Some(low), Some(high)) => format!("it must be {low} and {high}"),
        (Some(one), None) | (None, Some(one)) => format!("it must be {one}"),
        (None, None) => "it must be a finite number".to_owned(),
    }
}
