//! The sheet of a review as text: the weakest link first, then every question of every section, then what is short,
//! unknown or thin with its remedy, the figures told without a limit, and all that the review rests on.

mod assumed;
mod links;

pub(crate) use assumed::{Reading, assumed, methods, place_name, readings};
pub(crate) use links::{BELOW, remedy, unknown_entries};

use crate::grid::{self, Row};
use crate::subject::{Subject, counted};
use crate::text::{Align, Span, Style, Text, WIDTH, cut, pad, width, wrap};
use rigwright_margins::{Answer, Asked, Figure, Question, SYSTEMS, Scope, Verdict, questions};

/// Column in which the words beside a label begin.
const HANG: usize = 14;
/// Width of the names of questions that are asked of the rig as a whole.
const RIG_TITLE: usize = 26;
/// How many missing inputs the head names.
const UNKNOWN_NAMED: usize = 5;
/// Sections whose told figures stand side by side.
const TOLD_SIDE_BY_SIDE: usize = 3;
/// Width of the names of told figures, so that the tables of all questions stand alike.
const TOLD_NAME: usize = 42;
/// Width of a told figure.
const TOLD_FIGURE: usize = 16;

/// The sheet.
pub fn sheet(subject: &Subject) -> Text {
    let mut text = Text::default();
    head(&mut text, subject);
    text.blank();
    section_grid(&mut text, subject);
    rig_answers(&mut text, subject);
    text.blank();
    links::weakest_in_short(&mut text, subject);
    links::mended(&mut text, subject, Verdict::Short);
    links::unknown(&mut text, subject);
    links::mended(&mut text, subject, Verdict::Thin);
    told(&mut text, subject);
    assumed::assumptions(&mut text, subject);
    not_looked_at(&mut text);
    caution(&mut text);
    text
}

fn head(text: &mut Text, subject: &Subject) {
    let (well, rig) = (&subject.fit.well.name, &subject.fit.rig.name);
    let (name, moment) = (format!("{well} on {rig}"), format!("as of {}", subject.as_of()));
    let gap = WIDTH.saturating_sub(width(&name) + width(&moment)).max(2);
    text.line([name.into(), " ".repeat(gap).into(), Span::new(moment, Style::Faint)]);
    text.rule();
    weakest(text, subject);
    text.hanging(HANG, "answers".into(), &tally(subject));
    for caution in subject.cautions {
        text.hanging(HANG, "caution".into(), &format!("{caution}: `rigwright check` shows the place"));
    }
}

fn weakest(text: &mut Text, subject: &Subject) {
    match subject.review.weakest() {
        Some(weakest) => {
            let style = if weakest.verdict() == Verdict::Short { Style::Strong } else { Style::Plain };
            text.hanging(HANG, Span::new("weakest link", style), &link(subject, weakest));
        }
        None => text.hanging(HANG, "weakest link".into(), "no question could be judged"),
    }
    let unknown = unknown_entries(subject);
    if !unknown.is_empty() {
        let mut names: Vec<String> = unknown.iter().take(UNKNOWN_NAMED).map(|(entry, _)| (*entry).to_owned()).collect();
        if unknown.len() > UNKNOWN_NAMED {
            names.push(format!("{} more inputs", unknown.len() - UNKNOWN_NAMED));
        }
        let answers = counted(subject.count(Verdict::Unknown), "answer");
        text.hanging(HANG, "and unknown".into(), &format!("{answers}, for want of {}", names.join(", ")));
    }
}

/// One answer in a sentence: what, where, how much of what, what is left.
pub(crate) fn link(subject: &Subject, asked: &Asked) -> String {
    let (title, section) = (asked.question.title, subject.section(asked.section));
    let what = format!("{title} ({}), {section}, {}", asked.question.system(), subject.situation(asked));
    let word = asked.verdict().word();
    match &asked.answer {
        Answer::Judged(judged) => {
            let (figures, left) = (subject.demand_and_limit(asked, judged), subject.left(asked, judged));
            format!("{what}: {word}. {figures}: {left}")
        }
        Answer::DoesNotArise(why) => format!("{what}: {word}: {why}"),
        Answer::Told(_) | Answer::Missing(_) => format!("{what}: {word}"),
    }
}

/// "1 short, 3 unknown, 2 thin, 71 hold, 9 told, 4 do not arise; 1,312 situations swept".
pub(crate) fn tally(subject: &Subject) -> String {
    let words = [
        (Verdict::Short, "short"),
        (Verdict::Unknown, "unknown"),
        (Verdict::Thin, "thin"),
        (Verdict::Holds, "hold"),
        (Verdict::Told, "told"),
        (Verdict::DoesNotArise, "do not arise"),
    ];
    let counts: Vec<String> = words
        .into_iter()
        .map(|(verdict, word)| (subject.count(verdict), word))
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| format!("{count} {word}"))
        .collect();
    let counts = if counts.is_empty() { "none".to_owned() } else { counts.join(", ") };
    format!("{counts}; from {} in {}", counted(subject.review.situations, "situation"), sections(subject))
}

fn sections(subject: &Subject) -> String {
    counted(subject.fit.well.sections.len(), "hole section")
}

fn section_grid(text: &mut Text, subject: &Subject) {
    let sections = &subject.fit.well.sections;
    let columns: Vec<&str> = sections.iter().map(|section| section.name.as_str()).collect();
    let row = |question: &'static Question| Row {
        system: question.system(),
        title: question.title,
        answers: (0..sections.len())
            .map(|section| subject.review.find(question.slug, Some(section)).map(|asked| &asked.answer))
            .collect(),
    };
    let rows: Vec<Row> = questions().filter(|question| question.scope != Scope::Rig).map(row).collect();
    grid::grid(text, &columns, &rows, subject.units);
}

/// Answers that belong to the rig as a whole have no column.
fn rig_answers(text: &mut Text, subject: &Subject) {
    let of_rig: Vec<&Asked> = subject.review.answers.iter().filter(|asked| asked.section.is_none()).collect();
    if of_rig.is_empty() {
        return;
    }
    text.heading("the rig as a whole");
    for asked in of_rig {
        let mut line: Vec<Span> = vec![pad(asked.question.title, RIG_TITLE, Align::Left).into()];
        line.extend(grid::cell(&asked.answer, subject.units));
        let beside = asked.answer.judged().map(|judged| subject.demand_and_limit(asked, judged)).unwrap_or_default();
        let indent = line.iter().map(|span| width(&span.text)).sum::<usize>() + 2;
        for words in wrap(&beside, WIDTH.saturating_sub(indent)) {
            let wide: usize = line.iter().map(|span| width(&span.text)).sum();
            line.push(format!("{}{words}", " ".repeat(indent - wide)).into());
            text.line(std::mem::take(&mut line));
        }
    }
}

fn told<'a>(text: &mut Text, subject: &Subject<'a>) {
    let figures = |asked: &'a Asked| match &asked.answer {
        Answer::Told(figures) => Some((asked, figures.as_slice())),
        _ => None,
    };
    let told: Vec<(&Asked, &[Figure])> = subject.review.answers.iter().filter_map(figures).collect();
    if told.is_empty() {
        return;
    }
    text.heading("told: figures that no limit judges");
    for of_question in told.chunk_by(|a, b| a.0.question.slug == b.0.question.slug) {
        for side_by_side in of_question.chunks(TOLD_SIDE_BY_SIDE) {
            text.table(0, &[Align::Left, Align::Right, Align::Right, Align::Right], &told_rows(subject, side_by_side));
        }
    }
    text.blank();
}

/// Rows of the figures of one question, a column for each section; the head names the question.
fn told_rows(subject: &Subject, told: &[(&Asked, &[Figure])]) -> Vec<Vec<String>> {
    let title = told.first().map_or("", |(asked, _)| asked.question.title);
    let mut head = vec![pad(title, TOLD_NAME, Align::Left)];
    head.extend(told.iter().map(|(asked, _)| pad(subject.section(asked.section), TOLD_FIGURE, Align::Right)));
    let mut names: Vec<&str> = Vec::new();
    for figure in told.iter().flat_map(|(_, figures)| figures.iter()) {
        if !names.contains(&figure.name) {
            names.push(figure.name);
        }
    }
    let row = |name: &str| {
        let figure = |figures: &[Figure]| figures.iter().find(|figure| figure.name == name).copied();
        let cell = |figure: Figure| subject.show(figure.value, figure.kind);
        let mut row = vec![cut(&format!("  {name}"), TOLD_NAME)];
        row.extend(told.iter().map(|(_, figures)| figure(figures).map_or_else(|| "—".to_owned(), cell)));
        row
    };
    std::iter::once(head).chain(names.into_iter().map(row)).collect()
}

fn not_looked_at(text: &mut Text) {
    if SYSTEMS.iter().all(|system| system.not_yet.is_empty()) {
        return;
    }
    text.heading("not looked at");
    for system in SYSTEMS.iter().filter(|system| !system.not_yet.is_empty()) {
        let names: Vec<String> = system.not_yet.iter().map(|(slug, _)| plain_name(slug)).collect();
        text.hanging(HANG, system.name.into(), &names.join(", "));
    }
    text.blank();
}

/// The words of a slug: `control/sour-service` is "sour service".
pub(crate) fn plain_name(slug: &str) -> String {
    slug.split('/').next_back().unwrap_or(slug).replace('-', " ")
}

/// What every paper carries.
pub(crate) const CAUTIONS: [&str; 4] = [
    "If the well flows, shut in first, compute after.",
    "Planning aid. Local codes, the approved well-control manual and a certified person on site decide; a second person \
     recomputes. Nameplates and the last inspection govern mast, line and brake.",
    "\"holds\" means: under these inputs and assumptions, with what is listed as not looked at left out.",
    "Gallons and barrels are US; t is the tonne of 1000 kg and a ton of line work is 2000 lbf. Limits are printed rounded \
     down, demands and shares rounded up.",
];

pub(crate) fn caution(text: &mut Text) {
    text.heading("caution");
    for caution in CAUTIONS {
        text.paragraph(0, Style::Plain, caution);
    }
}
