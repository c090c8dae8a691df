//! Reviews, one a rig.

use super::formulas::FormulaName;
use super::{FORMAT, Units, depth, difference_in_unit, in_unit, print};
use crate::sheet::{CAUTIONS, assumed, methods, place_name, readings, unknown_entries};
use crate::subject::Subject;
use rigwright_margins::{Answer, Asked, Figure, Remedy, SYSTEMS, Verdict};
use rigwright_units::{System, unit};
use rigwright_wellfile::entry;
use serde::Serialize;

/// The reviews of one well with one or several rigs.
pub fn reviews(subjects: &[Subject]) -> String {
    let units = subjects.first().map_or(System::Field, |subject| subject.units);
    print(&Document { format: FORMAT, units: Units::of(units), reviews: subjects.iter().map(review).collect() })
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    units: Units,
    reviews: Vec<ReviewJson<'a>>,
}

#[derive(Serialize)]
struct ReviewJson<'a> {
    well: &'a str,
    rig: &'a str,
    as_of: String,
    situations: usize,
    counts: Counts,
    answers: Vec<AnswerJson<'a>>,
    weakest: Option<AnswerJson<'a>>,
    unknown: Vec<UnknownJson<'a>>,
    assumptions: Vec<AssumptionJson>,
    readings: Vec<ReadingJson>,
    formulas: Vec<FormulaName>,
    not_looked_at: Vec<NotLookedAt>,
    notices: Vec<String>,
    cautions: [&'static str; 4],
}

#[derive(Serialize)]
struct Counts {
    short: usize,
    unknown: usize,
    thin: usize,
    holds: usize,
    told: usize,
    does_not_arise: usize,
}

/// One answer, in a review or at the end of a working.
#[derive(Serialize)]
pub(super) struct AnswerJson<'a> {
    question: &'static str,
    title: &'static str,
    section: Option<&'a str>,
    verdict: &'static str,
    room: Option<f64>,
    share: Option<f64>,
    demand: Option<f64>,
    capacity: Option<f64>,
    reserve: Option<f64>,
    unit: &'static str,
    hole_depth: f64,
    bit_depth: f64,
    place: Option<f64>,
    operation: &'static str,
    limit: Option<&'static str>,
    source: Option<&'static str>,
    missing: &'a [&'static str],
    figures: Vec<FigureJson>,
    why: Option<&'static str>,
    remedy: Option<RemedyJson<'a>>,
}

/// A figure told without a limit.
#[derive(Serialize)]
pub(super) struct FigureJson {
    name: &'static str,
    value: f64,
    unit: &'static str,
}

#[derive(Serialize)]
struct RemedyJson<'a> {
    knob: &'static str,
    section: Option<&'a str>,
    from: f64,
    to: f64,
    unit: &'static str,
    steps: usize,
    ease: &'static str,
    verdict: &'static str,
    spoils: Vec<SpoiltJson<'a>>,
}

#[derive(Serialize)]
struct SpoiltJson<'a> {
    question: &'static str,
    section: Option<&'a str>,
    before: &'static str,
    after: &'static str,
}

#[derive(Serialize)]
struct UnknownJson<'a> {
    entry: &'static str,
    help: Option<&'static str>,
    example: Option<&'static str>,
    needed_by: Vec<NeededBy<'a>>,
}

#[derive(Serialize)]
struct NeededBy<'a> {
    question: &'static str,
    section: Option<&'a str>,
}

#[derive(Serialize)]
struct AssumptionJson {
    kind: &'static str,
    entry: Option<&'static str>,
    places: Vec<String>,
    value: Option<String>,
    text: Option<&'static str>,
    source: Option<&'static str>,
    questions: Vec<&'static str>,
}

#[derive(Serialize)]
struct ReadingJson {
    what: String,
    date: String,
    age_days: i32,
}

#[derive(Serialize)]
struct NotLookedAt {
    question: &'static str,
    asks: &'static str,
}

fn review<'a>(subject: &'a Subject) -> ReviewJson<'a> {
    let review = subject.review;
    let to_json = |asked: &'a Asked| answer(&Naming::of(subject), asked);
    ReviewJson {
        well: &subject.fit.well.name,
        rig: &subject.fit.rig.name,
        as_of: subject.as_of.to_string(),
        situations: review.situations,
        counts: Counts {
            short: subject.count(Verdict::Short),
            unknown: subject.count(Verdict::Unknown),
            thin: subject.count(Verdict::Thin),
            holds: subject.count(Verdict::Holds),
            told: subject.count(Verdict::Told),
            does_not_arise: subject.count(Verdict::DoesNotArise),
        },
        answers: review.answers.iter().map(to_json).collect(),
        weakest: review.weakest().map(to_json),
        unknown: unknown(subject),
        assumptions: assumptions(subject),
        readings: readings(subject)
            .into_iter()
            .map(|reading| ReadingJson {
                what: place_name(subject.fit, &reading.path),
                date: reading.date.to_string(),
                age_days: reading.age,
            })
            .collect(),
        formulas: review.formulas(subject.fit).into_iter().map(FormulaName::of).collect(),
        not_looked_at: SYSTEMS
            .iter()
            .flat_map(|system| system.not_yet)
            .map(|(question, asks)| NotLookedAt { question, asks })
            .collect(),
        notices: subject.cautions.iter().map(ToString::to_string).collect(),
        cautions: CAUTIONS,
    }
}

/// What it takes to name the parts of an answer.
pub(super) struct Naming<'a> {
    pub(super) fit: &'a rigwright_well::Fit,
    pub(super) units: System,
}

impl<'a> Naming<'a> {
    fn of(subject: &Subject<'a>) -> Naming<'a> {
        Naming { fit: subject.fit, units: subject.units }
    }

    pub(super) fn section(&self, section: Option<usize>) -> Option<&'a str> {
        self.fit.well.sections.get(section?).map(|section| section.name.as_str())
    }
}

pub(super) fn answer<'a>(naming: &Naming<'a>, asked: &'a Asked) -> AnswerJson<'a> {
    let (units, kind) = (naming.units, asked.question.kind);
    let judged = asked.answer.judged();
    let figures = match &asked.answer {
        Answer::Told(figures) => figures.as_slice(),
        _ => &[],
    };
    AnswerJson {
        question: asked.question.slug,
        title: asked.question.title,
        section: naming.section(asked.section),
        verdict: asked.verdict().word(),
        room: judged.map(|judged| judged.room()),
        share: judged.map(|judged| judged.share()),
        demand: judged.map(|judged| in_unit(judged.demand, kind, units)),
        capacity: judged.map(|judged| in_unit(judged.limit.capacity, kind, units)),
        reserve: judged.map(|judged| difference_in_unit(judged.limit.reserve, kind, units)),
        unit: unit(kind, units).symbol,
        hole_depth: depth(asked.situation.hole_depth, units),
        bit_depth: depth(asked.situation.bit_depth, units),
        place: judged.and_then(|judged| judged.place.depth()).map(|place| depth(place, units)),
        operation: asked.situation.operation.slug(),
        limit: judged.map(|judged| judged.limit.name),
        source: judged.map(|judged| judged.limit.source),
        missing: match &asked.answer {
            Answer::Missing(missing) => missing,
            _ => &[],
        },
        figures: figures.iter().map(|one| figure(one, units)).collect(),
        why: match asked.answer {
            Answer::DoesNotArise(why) => Some(why),
            _ => None,
        },
        remedy: asked.remedy.as_ref().map(|found| remedy(naming, found)),
    }
}

pub(super) fn figure(figure: &Figure, units: System) -> FigureJson {
    let value = in_unit(figure.value, figure.kind, units);
    FigureJson { name: figure.name, value, unit: unit(figure.kind, units).symbol }
}

fn remedy<'a>(naming: &Naming<'a>, remedy: &Remedy) -> RemedyJson<'a> {
    let kind = remedy.knob.kind;
    RemedyJson {
        knob: remedy.knob.name,
        section: naming.section(remedy.section),
        from: in_unit(remedy.from, kind, naming.units),
        to: in_unit(remedy.to, kind, naming.units),
        unit: unit(kind, naming.units).symbol,
        steps: remedy.steps,
        ease: super::proposal::ease(remedy.knob.ease),
        verdict: remedy.mended.word(),
        spoils: remedy
            .spoils
            .iter()
            .map(|spoilt| SpoiltJson {
                question: spoilt.slug,
                section: naming.section(spoilt.section),
                before: spoilt.before.word(),
                after: spoilt.after.word(),
            })
            .collect(),
    }
}

fn unknown<'a>(subject: &Subject<'a>) -> Vec<UnknownJson<'a>> {
    let naming = Naming::of(subject);
    let one = |(path, needing): (&'static str, Vec<&'a Asked>)| UnknownJson {
        entry: path,
        help: entry(path).map(|entry| entry.help),
        example: entry(path).map(|entry| entry.example),
        needed_by: needing
            .into_iter()
            .map(|asked| NeededBy { question: asked.question.slug, section: naming.section(asked.section) })
            .collect(),
    };
    unknown_entries(subject).into_iter().map(one).collect()
}

fn assumptions(subject: &Subject) -> Vec<AssumptionJson> {
    let inputs = assumed(subject).into_iter().map(|assumed| AssumptionJson {
        kind: "input",
        entry: Some(assumed.path),
        places: assumed.at,
        value: Some(assumed.value),
        text: None,
        source: Some(assumed.source),
        questions: Vec::new(),
    });
    let methods = methods(subject).into_iter().map(|method| AssumptionJson {
        kind: "method",
        entry: None,
        places: Vec::new(),
        value: None,
        text: Some(method.text),
        source: None,
        questions: method.questions.into_iter().map(|(slug, _)| slug).collect(),
    });
    inputs.chain(methods).collect()
}
