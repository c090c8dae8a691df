//! `papers`: what the crew signs, posts and carries, here, as PDF or as a workbook.

use super::{load, write_file};
use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, SHORT, lookup, print};
use jiff::Timestamp;
use rigwright_margins::Review;
use rigwright_papers::Subject;
use rigwright_papers::json::Fault;
use rigwright_papers::paper::{
    Desk, Fingerprint, KILL_SHEET, LEAK_OFF_REPORT, PAPERS, Paper, PaperKind, RUNNING_SHEET, blank_kill_sheet, fingerprint,
    fingerprint_of, plain, set, tallied_paper,
};
use rigwright_papers::text::{Align, Style, Text};
use rigwright_press::{PressError, Templates, WORKBOOKS, WorkbookError, pdf, pdfs, workbook};
use rigwright_units::System;
use rigwright_wellfile::{Disk, Loaded, Tallied, nearest, tally};
use std::path::Path;

pub(super) fn run(args: &args::Papers) -> Result<u8, Failure> {
    match (args.paper.as_deref(), args.well.as_deref()) {
        (None, _) => {
            print::text(&list())?;
            Ok(HOLDS)
        }
        (Some(paper), None) => {
            let help = format!("write `rigwright papers {paper} WELL`; without words the papers are listed");
            Err(fault(format!("`{paper}` of which well?"), help).into())
        }
        (Some("verify"), Some(well)) => verify(args, well),
        (Some("all"), Some(well)) => all(args, well),
        (Some(name), Some(well)) => one(args, name, well),
    }
}

fn list() -> Text {
    let mut text = Text::default();
    let row = |slug: &str, about: &str| vec![slug.to_owned(), about.to_owned()];
    let mut rows: Vec<Vec<String>> = PAPERS.iter().map(|kind| row(kind.slug, kind.about)).collect();
    rows.push(row(KILL_SHEET, "blank, for a drill; filled by `rigwright kill-sheet WELL ... --pdf FILE`"));
    rows.push(row(LEAK_OFF_REPORT, "a shoe test with its plot: `rigwright leak-off WELL RECORD --pdf FILE`"));
    text.table(0, &[Align::Left, Align::Left], &rows);
    text.blank();
    text.paragraph(0, Style::Faint, "`all` makes the set; `verify` matches a paper with the files that it came from");
    text
}

/// What a user wishes of papers.
pub(super) struct Wishes<'a> {
    /// Name of the well file.
    pub(super) file: &'a str,
    /// Name of the rig file, where one was named.
    pub(super) rig: Option<&'a str>,
    /// The moment.
    pub(super) as_of: Timestamp,
    /// The system of units.
    pub(super) units: System,
    /// A second one beside it.
    pub(super) beside: Option<System>,
    /// The section that a paper of one section is of.
    pub(super) section: Option<&'a str>,
}

impl Wishes<'_> {
    fn of<'a>(args: &'a args::Papers, well: &'a str) -> Wishes<'a> {
        let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
        Wishes {
            file: well,
            rig: args.rig.as_deref(),
            as_of,
            units: args.units,
            beside: args.beside,
            section: args.section.as_deref(),
        }
    }
}

/// A review, ready for any number of papers.
pub(super) fn with_desk<T>(
    loaded: &Loaded,
    wishes: Wishes,
    work: impl FnOnce(&Desk) -> Result<T, Failure>,
) -> Result<T, Failure> {
    let section = wishes.section.map(|name| lookup::section(&loaded.fit, name)).transpose()?;
    let review = Review::new(&loaded.fit);
    let subject = Subject {
        file: wishes.file,
        rig_file: wishes.rig,
        fit: &loaded.fit,
        provenance: &loaded.provenance,
        cautions: &loaded.cautions,
        review: &review,
        as_of: wishes.as_of,
        units: wishes.units,
    };
    let print = fingerprint(&loaded.sources);
    work(&Desk { subject: &subject, beside: wishes.beside, fingerprint: &print, version: env!("CARGO_PKG_VERSION"), section })
}

/// Writes a paper to the files that are wished for; whether any is.
pub(super) fn write(
    sheet: &args::Sheet,
    paper: &Paper,
    book: impl FnOnce() -> Result<Vec<u8>, WorkbookError>,
) -> Result<bool, Failure> {
    if let Some(file) = &sheet.pdf {
        write_file(file, &pdf(paper, sheet.size, &templates(sheet)?).map_err(faults)?)?;
    }
    if let Some(file) = &sheet.xlsx {
        let none = |error: WorkbookError| {
            let help = match error {
                WorkbookError::Refused { .. } => "choose another section".to_owned(),
                _ => format!("papers with a workbook: {}", WORKBOOKS.join(", ")),
            };
            fault(error.to_string(), help)
        };
        write_file(file, &book().map_err(none)?)?;
    }
    Ok(sheet.is_wished())
}

/// The set that `all` makes; a tally makes the running sheet of its section.
fn all_of(desk: &Desk, tallied: Option<&Tallied>) -> Result<Vec<(String, Paper)>, Failure> {
    let mut papers = set(desk);
    if let Some(tallied) = tallied {
        let made = by_tally(desk, tallied)?;
        let name = if desk.subject.fit.well.sections.len() < 2 || desk.section.is_some() {
            RUNNING_SHEET.to_owned()
        } else {
            format!("{RUNNING_SHEET}-{}", desk.section() + 1)
        };
        for (_, paper) in papers.iter_mut().filter(|(slug, _)| *slug == name) {
            *paper = made.clone();
        }
    }
    Ok(papers)
}

/// The tally that was named.
fn tally_of(args: &args::Papers) -> Result<Option<Tallied>, Failure> {
    Ok(args.tally.as_deref().map(|file| tally(file, &Disk)).transpose()?)
}

/// The running sheet of a tally.
fn by_tally(desk: &Desk, tallied: &Tallied) -> Result<Paper, Failure> {
    Ok(tallied_paper(desk, tallied).map_err(|words| fault(words, "choose the section of the casing with `--section`"))?)
}

fn one(args: &args::Papers, name: &str, well: &str) -> Result<u8, Failure> {
    let kind = PaperKind::find(name);
    if name == LEAK_OFF_REPORT {
        let help = format!("write `rigwright leak-off {well} RECORD.csv --pdf FILE`");
        return Err(fault("a leak-off report is made from the record of a shoe test", help).into());
    }
    if kind.is_none() && name != KILL_SHEET {
        let names = PAPERS.iter().map(|kind| kind.slug).chain([KILL_SHEET, "all", "verify"]);
        let help = match nearest(name, names.clone()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the papers are {}", names.collect::<Vec<_>>().join(", ")),
        };
        return Err(fault(format!("there is no paper `{name}`"), help).into());
    }
    if args.output.is_some() {
        return Err(fault("`--output` is the folder for `all`", "write this paper with `--pdf FILE` or `--xlsx FILE`").into());
    }
    if args.tally.is_some() && name != RUNNING_SHEET {
        return Err(fault(
            "`--tally` is for the running sheet",
            format!("write `rigwright papers {RUNNING_SHEET} {well} --tally FILE`"),
        )
        .into());
    }
    let tallied = tally_of(args)?;
    let loaded = load(well, args.rig.as_deref())?;
    with_desk(&loaded, Wishes::of(args, well), |desk| {
        let made = match &tallied {
            Some(tallied) => Some(by_tally(desk, tallied)?),
            None => kind.map_or_else(|| blank_kill_sheet(desk), |kind| Some(kind.make(desk))),
        };
        let paper = made.ok_or_else(|| {
            let why =
                "this well has no blank kill sheet: the last section has no casing above it, or its volumes cannot be worked out";
            fault(why, "`rigwright kill-sheet` says why with readings")
        })?;
        if !write(&args.sheet, &paper, || workbook(desk, name))? {
            print::text(&plain(&paper))?;
        }
        Ok(HOLDS)
    })
}

fn all(args: &args::Papers, well: &str) -> Result<u8, Failure> {
    let Some(folder) = args.output.as_deref() else {
        return Err(fault("into which folder?", format!("write `rigwright papers all {well} -o DIR`")).into());
    };
    let templates = templates(&args.sheet)?;
    std::fs::create_dir_all(folder)
        .map_err(|error| fault(format!("`{folder}` cannot be made: {error}"), "may you write there?"))?;
    let tallied = tally_of(args)?;
    let loaded = load(well, args.rig.as_deref())?;
    with_desk(&loaded, Wishes::of(args, well), |desk| {
        let papers = all_of(desk, tallied.as_ref())?;
        let sheets: Vec<&Paper> = papers.iter().map(|(_, paper)| paper).collect();
        pdfs(&sheets, args.sheet.size, &templates, |index, made| -> Result<(), Failure> {
            let file = Path::new(folder).join(format!("{}.pdf", papers[index].0));
            write_file(&file, &made.map_err(faults)?)?;
            let mut text = Text::default();
            text.plain(format!("{} of {}  {}", index + 1, papers.len(), file.display()));
            Ok(print::text(&text)?)
        })?;
        Ok(HOLDS)
    })
}

fn verify(args: &args::Papers, well: &str) -> Result<u8, Failure> {
    let Some(printed) = args.fingerprint.as_deref() else {
        return Err(fault(
            "which fingerprint?",
            format!("write `rigwright papers verify {well} 3f0a-91c2-77de`, as at the foot of the paper"),
        )
        .into());
    };
    let printed: Fingerprint =
        printed.parse().map_err(|error| fault(format!("`{printed}`: {error}"), "copy it from the foot of the paper"))?;
    // A paper of a record names the record's own fingerprint beside that of the files.
    let (now, kept, gone) = match args.tally.as_deref() {
        Some(file) => {
            (fingerprint_of(&read_text(file)?), "this record as it is now", "this record is {now}: it has changed since")
        }
        None => {
            let now = fingerprint(&load(well, args.rig.as_deref())?.sources);
            (now, "these files as they are now", "these files are {now}: they have changed since")
        }
    };
    let mut text = Text::default();
    let same = printed == now;
    if same {
        text.plain(format!("{now}: the paper was made from {kept}."));
    } else {
        let gone = gone.replace("{now}", &now.to_string());
        text.line([rigwright_papers::text::Span::new(
            format!("The paper says {printed}, {gone}, or the paper is of others."),
            Style::Strong,
        )]);
    }
    print::text(&text)?;
    Ok(if same { HOLDS } else { SHORT })
}

fn read_text(file: &str) -> Result<String, Failure> {
    std::fs::read_to_string(file).map_err(|error| fault(format!("`{file}` cannot be read: {error}"), "name the CSV file").into())
}

fn templates(sheet: &args::Sheet) -> Result<Templates, Failure> {
    match &sheet.templates {
        None => Ok(Templates::default()),
        Some(folder) => Templates::of_folder(Path::new(folder))
            .map_err(|error| fault(error.to_string(), "name a folder with files ending in .typ").into()),
    }
}

fn faults(error: PressError) -> Failure {
    match error {
        PressError::Template(faults) => {
            let one = |one: &rigwright_press::TemplateFault| {
                let help = (!one.hints.is_empty()).then(|| one.hints.join("; "));
                Fault { message: one.to_string(), help }
            };
            Failure::Typed(faults.iter().map(one).collect())
        }
        other => Failure::Typed(vec![Fault { message: other.to_string(), help: None }]),
    }
}
