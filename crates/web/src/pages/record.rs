//! Papers made of a record beside the well: the report of a shoe test, and a running sheet by the tally.

use crate::Server;
use crate::ask::Case;
use crate::pages::papers::Unmade;
use crate::pages::picture;
use maud::{Markup, html};
use rigwright_margins::steps::{PumpIn, shoe_tested};
use rigwright_papers::paper::{Desk, Paper, Record, fingerprint_of, leak_off_report, tallied_paper};
use rigwright_physics::Working;
use rigwright_well::Section;
use rigwright_wellfile::{Finding, pump_in, tally};

pub(crate) use rigwright_papers::paper::{LEAK_OFF_REPORT, RUNNING_SHEET};

/// Each paper that is made of a record: name, title, and what its record holds.
const RECORDED: [(&str, &str, &str); 2] = [
    (LEAK_OFF_REPORT, "Leak-off report", "record of a shoe test: volume pumped in all and pressure, row by row"),
    (RUNNING_SHEET, "Casing running sheet by a tally", "tally: the joints in the order of running, with their lengths"),
];

/// Where a record and the section that it is of are chosen.
pub(crate) fn forms(server: &Server, case: &Case, sections: &[Section], wishes: &[(&str, &str)]) -> Markup {
    let records = server.folder.records();
    html! {
        h2 { "Of a record" }
        @if records.is_empty() {
            p.empty { "No CSV file lies beside the well. Put the record of a shoe test or a tally there; the first line names columns and units." }
        } @else {
            @for (slug, title, what) in RECORDED {
                form.range method="get" action="/paper" {
                    (picture::hidden(case, wishes))
                    input type="hidden" name="paper" value=(slug);
                    b { (title) }
                    label { " of " select name="section" {
                        @for (index, section) in sections.iter().enumerate().filter(|(_, section)| section.casing.is_some()) {
                            option value=(index) { (section.name) }
                        }
                    } }
                    label { " from " select name="record" aria-label=(what) {
                        @for name in &records { option value=(name) { (name) } }
                    } }
                    button { "Make it" }
                    p.faint { (what) }
                }
            }
        }
    }
}

/// The paper of a record.
pub(crate) fn make(server: &Server, desk: &Desk, slug: &str, record: &str) -> Result<(Paper, Option<Working>), Unmade> {
    match slug {
        LEAK_OFF_REPORT => leak_off(server, desk, record),
        RUNNING_SHEET => Ok((running(server, desk, record)?, None)),
        _ => Err(Unmade::wrong(
            "No such paper of a record",
            "Only a shoe test and a tally are records that a paper is made of.".to_owned(),
        )),
    }
}

fn leak_off(server: &Server, desk: &Desk, record: &str) -> Result<(Paper, Option<Working>), Unmade> {
    const TITLE: &str = "No report can be made of this record";
    let text = server.folder.text(record).map_err(|error| Unmade::wrong(TITLE, format!("{record}: {error}")))?;
    let rows = pump_in(&text).map_err(|wrong| Unmade::wrong(TITLE, format!("{record}: {}", wrong.join("; "))))?;
    let rows: Vec<PumpIn> = rows.into_iter().map(|[volume, pressure]| PumpIn { volume, pressure }).collect();
    let tested = shoe_tested(desk.subject.fit, desk.section(), &rows, None);
    let tested = tested.map_err(|refused| Unmade::wrong(TITLE, format!("{}; {}", refused.why, refused.help)))?;
    let paper = leak_off_report(desk, &tested, &Record { file: record, print: &fingerprint_of(&text) });
    Ok((paper, Some(tested.procedure.working)))
}

fn running(server: &Server, desk: &Desk, record: &str) -> Result<Paper, Unmade> {
    const TITLE: &str = "No running sheet can be made of this tally";
    let tallied = tally(record, &server.folder).map_err(|findings| {
        let words: Vec<String> = findings.list.iter().map(told).collect();
        Unmade::wrong(TITLE, words.join("; "))
    })?;
    tallied_paper(desk, &tallied).map_err(|words| Unmade::wrong(TITLE, words))
}

/// A finding in one line.
fn told(finding: &Finding) -> String {
    let place = finding.labels.first().map_or_else(String::new, |label| format!("line {}: ", label.place.line()));
    let help = finding.help.as_deref().map_or_else(String::new, |help| format!(" ({help})"));
    format!("{place}{}{help}", finding.message)
}
