//! From words on the command line to what they name, or to a fault that says what could have been meant.

use crate::failure::fault;
use rigwright_margins::{Question, questions};
use rigwright_papers::json::Fault;
use rigwright_units::{Kind, parse};
use rigwright_well::{Fit, Operation};
use rigwright_wellfile::nearest;

/// The question of a slug; the words behind the stroke are enough where only one question has them.
pub(crate) fn question(slug: &str) -> Result<&'static Question, Fault> {
    let tail = |question: &Question| question.slug.split('/').next_back() == Some(slug);
    let mut with_tail = questions().filter(|question| tail(question));
    let found = rigwright_margins::question(slug).or_else(|| with_tail.next().filter(|_| with_tail.next().is_none()));
    found.ok_or_else(|| {
        let message = format!("there is no question `{slug}`");
        let tails = questions().filter_map(|question| question.slug.split('/').next_back());
        let near = nearest(slug, questions().map(|question| question.slug)).or_else(|| nearest(slug, tails));
        match near {
            Some(near) => fault(message, format!("did you mean `{near}`? `rigwright explain WELL` lists them all")),
            None => fault(message, "`rigwright explain WELL` lists them all"),
        }
    })
}

/// The index of a hole section by its name, by a beginning of it that no other has, or by its number from the top.
pub(crate) fn section(fit: &Fit, wanted: &str) -> Result<usize, Fault> {
    let plain = |name: &str| name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let names: Vec<String> = fit.well.sections.iter().map(|section| plain(&section.name)).collect();
    let word = plain(wanted);
    if let Some(index) = names.iter().position(|name| *name == word) {
        return Ok(index);
    }
    if let Ok(number) = word.parse::<usize>()
        && (1..=names.len()).contains(&number)
    {
        return Ok(number - 1);
    }
    let mut beginning = (0..names.len()).filter(|index| !word.is_empty() && names[*index].starts_with(&word));
    if let (Some(index), None) = (beginning.next(), beginning.next()) {
        return Ok(index);
    }
    let sections: Vec<String> = fit.well.sections.iter().map(|section| format!("`{}`", section.name)).collect();
    Err(fault(
        format!("{} has no hole section `{wanted}`", fit.well.name),
        format!("its sections are {}; a number from 1 to {} will do too", sections.join(", "), sections.len()),
    ))
}

/// A section, the last one where nobody says, and a depth of hole in it, its end where nobody says.
pub(crate) fn place(section: Option<&str>, hole: Option<&str>, fit: &Fit, faults: &mut Vec<Fault>) -> (usize, f64) {
    let index = match section.map(|name| self::section(fit, name)).transpose() {
        Ok(index) => index.unwrap_or(fit.well.sections.len() - 1),
        Err(fault) => {
            faults.push(fault);
            return (0, fit.well.sections[0].bottom);
        }
    };
    let this = &fit.well.sections[index];
    let hole_depth = match hole.map(|text| depth("hole", text, fit)).transpose() {
        Ok(None) => this.bottom,
        Ok(Some(depth)) if depth > this.top && depth <= this.bottom + 0.5 => depth.min(this.bottom),
        Ok(Some(_)) => {
            faults.push(fault(
                format!("--hole: the section `{}` is not drilled at that depth", this.name),
                "choose the section with --section, or leave --hole out for its end",
            ));
            this.bottom
        }
        Err(fault) => {
            faults.push(fault);
            this.bottom
        }
    };
    (index, hole_depth)
}

/// An operation by its slug or its words.
pub(crate) fn operation(word: &str) -> Result<Operation, Fault> {
    let plain = word.trim().to_lowercase().replace(' ', "-");
    Operation::ALL.into_iter().find(|operation| operation.slug() == plain).ok_or_else(|| {
        let all: Vec<String> = Operation::ALL.iter().map(|operation| format!("`{}`", operation.slug())).collect();
        let message = format!("there is no operation `{word}`");
        match nearest(word, Operation::ALL.map(Operation::slug)) {
            Some(near) => fault(message, format!("did you mean `{near}`? the operations are {}", all.join(", "))),
            None => fault(message, format!("the operations are {}", all.join(", "))),
        }
    })
}

/// A measured depth, given with a flag. [m]
pub(crate) fn depth(flag: &str, text: &str, fit: &Fit) -> Result<f64, Fault> {
    let depth = parse(text, Kind::Depth).map_err(|error| fault(format!("--{flag}: {error}"), error.help()))?;
    let total = fit.well.total_depth();
    // The last foot of a well may be typed with its decimals rounded up.
    if (0.0..=total + 0.5).contains(&depth) {
        return Ok(depth);
    }
    let (name, end) = (&fit.well.name, rigwright_units::show(total, Kind::Depth, rigwright_units::System::Field));
    Err(fault(format!("--{flag}: `{text}` is not in the hole"), format!("{name} goes from 0 to {end} measured depth")))
}
