//! `check`: everything that is wrong with the files, all at once.

use crate::args;
use crate::failure::{Failure, drawn};
use crate::{HOLDS, WRONG_INPUT, print};
use rigwright_papers::json;
use rigwright_papers::text::{Style, Text};
use rigwright_wellfile::{Disk, Loaded, Origin, read};

pub(super) fn run(args: &args::Check) -> Result<u8, Failure> {
    match read(&args.well, args.rig.as_deref(), &Disk) {
        Ok(loaded) if args.json => {
            print::raw(json::checked(&args.well, &loaded.fit, &loaded.cautions).as_bytes())?;
            Ok(HOLDS)
        }
        Ok(loaded) => {
            for caution in &loaded.cautions {
                print::raw(drawn(caution, print::results_have_colour()).as_bytes())?;
            }
            print::text(&summary(&loaded))?;
            Ok(HOLDS)
        }
        Err(findings) => {
            // Here the findings are the result, so they go where results go.
            let report = if args.json { json::findings(&findings) } else { drawn(&findings, print::results_have_colour()) };
            print::raw(report.as_bytes())?;
            Ok(WRONG_INPUT)
        }
    }
}

fn summary(loaded: &Loaded) -> Text {
    let files: Vec<&str> = loaded.sources.iter().map(|source| source.name.as_str()).collect();
    let given = loaded.provenance.iter().filter(|(_, origin)| matches!(origin, Origin::Given { .. })).count();
    let (assumed, unknown) = (loaded.provenance.defaults().count(), loaded.provenance.unknown().count());
    let well = &loaded.fit.well;
    let mut text = Text::default();
    let found = match loaded.cautions.len() {
        0 => "no findings".to_owned(),
        1 => "1 caution, no errors".to_owned(),
        count => format!("{count} cautions, no errors"),
    };
    text.plain(format!("{found}: {} on {}", well.name, loaded.fit.rig.name));
    text.paragraph(2, Style::Plain, &format!("read {}", files.join(", ")));
    let (sections, layers) = (well.sections.len(), well.formations.len());
    text.plain(format!("  hole sections {sections}, layers {layers}"));
    text.plain(format!("  values given {given}, assumed {assumed}, left unknown {unknown}"));
    if unknown > 0 {
        let paths: Vec<&str> = loaded.provenance.unknown().collect();
        text.paragraph(2, Style::Plain, &format!("unknown: {}", paths.join(", ")));
    }
    text
}
