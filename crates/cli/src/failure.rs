//! What ends a command before its result: files that cannot be used, or words on the command line that mean nothing.
//! Each is told once, with what to write instead, all of them at once.

use crate::{WRONG_INPUT, print};
use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme};
use rigwright_papers::json::{self, Fault};
use rigwright_papers::text::{Span, Style, Text, WIDTH};
use rigwright_wellfile::Findings;
use std::io;

/// Why a command has no result.
#[derive(Debug)]
pub(crate) enum Failure {
    /// The files of a well, or of one well with several rigs.
    Files(Vec<Findings>),
    /// What was typed.
    Typed(Vec<Fault>),
    /// The result could not be written.
    Output(io::Error),
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        Failure::Output(error)
    }
}

impl From<Findings> for Failure {
    fn from(findings: Findings) -> Failure {
        Failure::Files(vec![findings])
    }
}

/// A fault in what was typed.
pub(crate) fn fault(message: impl Into<String>, help: impl Into<String>) -> Fault {
    Fault { message: message.into(), help: Some(help.into()) }
}

impl From<Fault> for Failure {
    fn from(fault: Fault) -> Failure {
        Failure::Typed(vec![fault])
    }
}

impl Failure {
    /// Tells it, as JSON where results would have gone or as text where errors go.
    pub(crate) fn tell(self, json: bool) -> io::Result<u8> {
        match self {
            Failure::Output(error) => return Err(error),
            Failure::Files(all) if json => {
                for findings in &all {
                    print::raw(json::findings(findings).as_bytes())?;
                }
            }
            Failure::Files(all) => {
                for findings in &all {
                    eprint!("{}", drawn(findings, print::errors_have_colour()));
                }
            }
            Failure::Typed(faults) if json => print::raw(json::faults(&faults).as_bytes())?,
            Failure::Typed(faults) => print::error_text(&told(&faults))?,
        }
        Ok(WRONG_INPUT)
    }
}

fn told(faults: &[Fault]) -> Text {
    let mut text = Text::default();
    for fault in faults {
        text.hanging(7, Span::new("error:", Style::Strong), &fault.message);
        if let Some(help) = &fault.help {
            text.hanging(7, " help:".into(), help);
        }
    }
    text
}

/// Findings with the lines that they point to.
pub(crate) fn drawn(findings: &dyn Diagnostic, colour: bool) -> String {
    let theme = if colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme).with_width(WIDTH).with_links(false);
    let mut drawn = String::new();
    // Should drawing fail, the bare messages are still worth having.
    if handler.render_report(&mut drawn, findings).is_err() {
        drawn = format!("{findings}\n");
    }
    drawn
}
