//! `review`: the main job.

use crate::args;
use crate::failure::Failure;
use crate::{HOLDS, SHORT, UNKNOWN, print};
use jiff::Timestamp;
use rigwright_margins::{Review, Verdict};
use rigwright_papers::{Subject, json, sheet, side_by_side};
use rigwright_wellfile::{Disk, Findings, Loaded, read};

pub(super) fn run(args: &args::Review) -> Result<u8, Failure> {
    let loaded = load(args)?;
    let reviews: Vec<Review> = loaded.iter().map(|loaded| Review::new(&loaded.fit)).collect();
    let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
    let subjects: Vec<Subject> = loaded
        .iter()
        .zip(&reviews)
        .enumerate()
        .map(|(index, (loaded, review))| Subject {
            file: &args.well,
            rig_file: args.rig.get(index).map(String::as_str),
            fit: &loaded.fit,
            provenance: &loaded.provenance,
            cautions: &loaded.cautions,
            review,
            as_of,
            units: args.form.units,
        })
        .collect();
    if args.form.json {
        print::raw(json::reviews(&subjects).as_bytes())?;
    } else if let [subject] = subjects.as_slice() {
        print::text(&sheet(subject))?;
    } else {
        print::text(&side_by_side(&subjects))?;
    }
    Ok(worst(reviews.iter().map(|review| code(review, args.strict))))
}

/// The well with each rig; or all that is wrong, what is wrong with the well itself told once.
fn load(args: &args::Review) -> Result<Vec<Loaded>, Failure> {
    let rigs: Vec<Option<&str>> =
        if args.rig.is_empty() { vec![None] } else { args.rig.iter().map(|rig| Some(rig.as_str())).collect() };
    let mut loaded = Vec::new();
    let mut failed: Vec<Findings> = Vec::new();
    for rig in rigs {
        match read(&args.well, rig, &Disk) {
            Ok(read) => loaded.push(read),
            Err(mut findings) => {
                let known = |message: &str| failed.iter().any(|other| other.list.iter().any(|known| known.message == message));
                let before = findings.list.len();
                findings.list.retain(|finding| !(known(&finding.message) && in_well(&finding.labels, &args.well)));
                if before == 0 || !findings.list.is_empty() {
                    failed.push(findings);
                }
            }
        }
    }
    if failed.is_empty() { Ok(loaded) } else { Err(Failure::Files(failed)) }
}

/// Whether a finding points into the well file, which every rig shares; so does one without a place.
fn in_well(labels: &[rigwright_wellfile::Label], well: &str) -> bool {
    labels.first().is_none_or(|label| std::path::Path::new(well).ends_with(&label.place.source.name))
}

/// The code of one review.
fn code(review: &Review, strict: bool) -> u8 {
    let has = |verdict: Verdict, counts: &dyn Fn(&str) -> bool| {
        review.answers.iter().any(|asked| asked.verdict() == verdict && counts(asked.question.system()))
    };
    if has(Verdict::Short, &|_| true) {
        SHORT
    } else if has(Verdict::Unknown, &|system| strict || system == "control") {
        UNKNOWN
    } else {
        HOLDS
    }
}

/// Short before unknown before the rest.
fn worst(codes: impl Iterator<Item = u8>) -> u8 {
    let codes: Vec<u8> = codes.collect();
    [SHORT, UNKNOWN].into_iter().find(|code| codes.contains(code)).unwrap_or(HOLDS)
}
