//! The form beside the text of a file: one subject at a time, every entry that may stand there with what is found about it,
//! and what can be added: a part of the trade's tables, a section. It changes the text in the editor; the file stays as it is
//! until it is saved.

use crate::ask::Ask;
use maud::{Markup, html};
use rigwright_physics::tubular::grades;
use rigwright_wellfile::{
    Entry, Fault, Finding, Form, Presence, Slot, StockPart, Subject, edit, stock_parts, subjects, with_part, with_section,
};

/// What the form is made from.
pub(crate) struct Filling<'a> {
    /// Name of the file.
    pub(crate) file: &'a str,
    /// Whether it is the rig.
    pub(crate) rig: bool,
    /// Its text.
    pub(crate) text: &'a str,
    /// What is found in it.
    pub(crate) findings: &'a [Finding],
    /// The subject that is asked for.
    pub(crate) subject: Option<&'a str>,
    /// What could not be done.
    pub(crate) fault: Option<&'a Fault>,
}

impl Filling<'_> {
    /// The form.
    pub(crate) fn form(&self) -> Markup {
        let all = match subjects(self.text, self.rig) {
            Ok(all) => all,
            Err(fault) => return html! { h2 { "Fill in" } p role="alert" { (fault) } },
        };
        let chosen = self.subject.and_then(|path| all.iter().find(|subject| subject.path == path)).or(all.first());
        html! {
            h2 { "Fill in" }
            @if let Some(fault) = self.fault { p role="alert" { (fault) } }
            label for="subject" { "Subject" }
            select #subject name="subject" {
                @for subject in &all {
                    option value=(subject.path) selected[chosen.is_some_and(|chosen| chosen.path == subject.path)] data-line=[subject.line] {
                        (title(&all, subject)) @if subject.line.is_none() { " (not written)" }
                    }
                }
            }
            noscript { button.quietly formaction="/put" name="do" value="show" { "Show" } }
            @if let Some(subject) = chosen {
                p.faint { (subject.help) }
                div.fields { @for slot in &subject.slots { (self.field(slot)) } }
                p.acts { button formaction="/put" name="do" value="fields" { "Put into the text" } }
            }
            @if !self.rig { (add_part(&all)) (add_section()) }
        }
    }

    fn field(&self, slot: &Slot) -> Markup {
        let id = format!("if.{}", slot.path);
        let value = slot.value.as_deref().unwrap_or_default();
        let found = self.found(slot);
        let said = match slot.entry.presence {
            Presence::Required => "must be given".to_owned(),
            Presence::Default { text, source } => format!("else {text}: {source}"),
            Presence::Computed { text, source } => format!("else {text}: {source}"),
            Presence::Needed(when) => format!("needed {when}"),
            Presence::Unknown => "else unknown".to_owned(),
            Presence::Optional => "may be left out".to_owned(),
        };
        html! {
            div.field class=[(!found.is_empty()).then_some("found")] {
                label for=(id) { b { (plain_words(slot.entry.key())) } " " span.faint { (slot.entry.help) } }
                @if let Form::Choice(words) = slot.entry.form {
                    select #(id) name=(id) aria-describedby={ (id) ".note" } {
                        option value="" selected[value.is_empty()] { "—" }
                        @for word in words { option value=(word) selected[*word == value] { (word) } }
                        @if !value.is_empty() && !words.contains(&value) { option value=(value) selected { (value) } }
                    }
                } @else {
                    input #(id) name=(id) value=(value) placeholder=(example(slot.entry)) autocomplete="off" spellcheck="false"
                        aria-invalid=[(!found.is_empty()).then_some("true")] aria-describedby={ (id) ".note" };
                }
                span.small #{ (id) ".note" } {
                    @for finding in &found { b { (finding.message) } " " @if let Some(help) = &finding.help { (help) " " } }
                    @if slot.value.is_none() { (said) }
                }
            }
        }
    }

    /// What is found at the place of an entry.
    fn found(&self, slot: &Slot) -> Vec<&Finding> {
        let Some(span) = &slot.span else { return Vec::new() };
        let here = |finding: &&Finding| {
            finding.labels.iter().any(|label| {
                let place = &label.place;
                place.source.name == self.file && place.span.start < span.end && place.span.end > span.start
            })
        };
        self.findings.iter().filter(here).collect()
    }
}

fn example(entry: &Entry) -> String {
    if entry.example.is_empty() { String::new() } else { format!("such as {}", entry.example) }
}

/// A key in words: `drill-pipe` is "drill pipe".
fn plain_words(key: &str) -> String {
    key.replace(['_', '-'], " ")
}

/// A subject in words: "8 1/2 in: mud", "8 1/2 in: string 4, drill-pipe".
fn title(all: &[Subject], subject: &Subject) -> String {
    let mut words = Vec::new();
    let mut path = String::new();
    for step in subject.path.split('.').filter(|step| !step.is_empty()) {
        path = if path.is_empty() { step.to_owned() } else { format!("{path}.{step}") };
        let Some((key, number)) = step.split_once('[') else {
            words.push(plain_words(step));
            continue;
        };
        let number: usize = number.trim_end_matches(']').parse().unwrap_or_default();
        let told = ["name", "part", "kind"].iter().find_map(|key| value(all, &path, key)).unwrap_or_default();
        words.push(match key {
            "section" if !told.is_empty() => told.to_owned(),
            _ => format!("{} {} {told}", plain_words(key), number + 1).trim_end().to_owned(),
        });
    }
    if words.is_empty() { "the well".to_owned() } else { words.join(": ") }
}

/// What is written for an entry of a subject.
fn value<'a>(all: &'a [Subject], path: &str, key: &str) -> Option<&'a str> {
    let subject = all.iter().find(|subject| subject.path == path)?;
    subject.slots.iter().find(|slot| slot.entry.key() == key)?.value.as_deref()
}

/// Places in the strings where a part can go, from the bit up: section, number of the part above, and words.
fn places(all: &[Subject]) -> Vec<(usize, usize, String)> {
    let mut places = Vec::new();
    for section in 0.. {
        let path = format!("section[{section}]");
        if !all.iter().any(|subject| subject.path == path) {
            return places;
        }
        let name = value(all, &path, "name").unwrap_or("section");
        for number in 1.. {
            let part = format!("{path}.string[{number}]");
            if !all.iter().any(|subject| subject.path == part) {
                break;
            }
            let part = value(all, &part, "part").unwrap_or("part");
            places.push((section, number, format!("{name}: under part {}, {part}", number + 1)));
        }
    }
    places
}

fn add_part(all: &[Subject]) -> Markup {
    let (stock, places) = (stock_parts(), places(all));
    let kinds = ["drill-pipe", "heavy-weight", "collar"];
    html! {
        details {
            summary { "Add a part to a string" }
            p.faint { "Sizes of the trade's tables; the maker's sheet and the last inspection go before them." }
            div.fields {
                div.field {
                    label for="size" { b { "part" } }
                    select #size name="size" {
                        @for kind in kinds {
                            optgroup label=(plain_words(kind)) {
                                @for part in stock.iter().filter(|part| part.part == kind) { option value=(key(part)) { (part.size) } }
                            }
                        }
                    }
                }
                div.field {
                    label for="where" { b { "where" } }
                    select #where name="where" {
                        @for (section, number, words) in places.iter().rev() { option value={ (section) "." (number) } { (words) } }
                    }
                }
                (plain("length", "length", "540 ft"))
                (plain("weight", "weight with joints, of drill pipe", "21.9 lb/ft"))
                div.field {
                    label for="grade" { b { "grade" } " " span.faint { "of drill pipe" } }
                    select #grade name="grade" {
                        option value="" { "—" }
                        @for grade in grades().take(4) { option value=(grade) { (grade) } }
                    }
                }
            }
            p.acts { button formaction="/put" name="do" value="part" { "Add the part" } }
        }
    }
}

fn add_section() -> Markup {
    html! {
        details {
            summary { "Add a section" }
            p.faint { "Below the deepest. All else is a copy of the section above, without its casing: put your own figures in." }
            div.fields {
                (plain("new_name", "name", "6 in"))
                (plain("new_bottom", "where it ends", "12500 ft"))
                (plain("new_hole", "hole", "6 in"))
            }
            p.acts { button formaction="/put" name="do" value="section" { "Add the section" } }
        }
    }
}

fn plain(name: &str, words: &str, example: &str) -> Markup {
    html! {
        div.field {
            label for=(name) { b { (words) } }
            input #(name) name=(name) placeholder={ "such as " (example) } autocomplete="off" spellcheck="false";
        }
    }
}

/// The name by which the form sends a part.
fn key(part: &StockPart) -> String {
    format!("{}: {}", part.part, part.size)
}

/// The text as the form wants it.
pub(crate) fn put(ask: &Ask, text: &str, rig: bool) -> Result<String, Fault> {
    match ask.sent("do") {
        Some("fields") => fields(ask, text, rig),
        Some("part") if !rig => part(ask, text),
        Some("section") if !rig => {
            let given = |key: &str, what: &str| {
                let value = ask.sent(key).unwrap_or_default().trim();
                if value.is_empty() { Err(Fault(format!("say {what} of the new section"))) } else { Ok(value.to_owned()) }
            };
            let name = given("new_name", "the name")?;
            with_section(text, &name, &given("new_bottom", "the depth where it ends")?, &given("new_hole", "the hole")?)
        }
        _ => Ok(text.to_owned()),
    }
}

/// What differs from the text goes into it; what is emptied goes out.
fn fields(ask: &Ask, text: &str, rig: bool) -> Result<String, Fault> {
    let all = subjects(text, rig)?;
    let slots = || all.iter().flat_map(|subject| &subject.slots);
    let changed = ask.form.iter().filter_map(|(key, value)| {
        let path = key.strip_prefix("if.")?;
        let slot = slots().find(|slot| slot.path == path)?;
        (slot.value.as_deref().unwrap_or_default() != value.trim()).then_some((path, value.as_str()))
    });
    edit(text, changed)
}

fn part(ask: &Ask, text: &str) -> Result<String, Fault> {
    let stock = stock_parts();
    let size = ask.sent("size").unwrap_or_default();
    let chosen = stock.iter().find(|part| key(part) == size).ok_or_else(|| Fault("choose a part".to_owned()))?;
    let place = ask
        .sent("where")
        .and_then(|place| place.split_once('.'))
        .and_then(|(section, number)| Some((section.parse().ok()?, number.parse().ok()?)));
    let (section, number) = place.ok_or_else(|| Fault("choose where it goes: no section lists parts of its own".to_owned()))?;
    let typed = |key: &'static str| Some((key, ask.sent(key)?.trim())).filter(|(_, value)| !value.is_empty());
    let mut entries = vec![("part", chosen.part)];
    entries.extend(chosen.entries.iter().map(|(key, value)| (*key, value.as_str())));
    entries.extend(typed("length"));
    if chosen.part == "drill-pipe" {
        entries.extend(["weight", "grade"].into_iter().filter_map(typed));
    }
    with_part(text, section, number, &entries)
}
