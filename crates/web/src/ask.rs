//! One request in the page's own words, and one reply.

use crate::change::Changes;
use jiff::Timestamp;
use maud::{Markup, PreEscaped};
use rigwright_units::System;

/// No more pairs than this are read from a query or a form.
const MOST_PAIRS: usize = 2_000;

/// What is asked.
pub(crate) struct Ask {
    /// Path of the address.
    pub(crate) path: String,
    pub(crate) query: Vec<(String, String)>,
    /// Fields of a form that was sent.
    pub(crate) form: Vec<(String, String)>,
    pub(crate) cookies: Vec<(String, String)>,
    /// The moment for which the page is made.
    pub(crate) as_of: Timestamp,
}

/// Pairs of a query or a form.
pub(crate) fn pairs(text: &[u8]) -> Vec<(String, String)> {
    form_urlencoded::parse(text).take(MOST_PAIRS).map(|(key, value)| (key.into_owned(), value.into_owned())).collect()
}

fn find<'a>(pairs: &'a [(String, String)], key: &str) -> Option<&'a str> {
    pairs.iter().find(|(known, _)| known == key).map(|(_, value)| value.as_str())
}

impl Ask {
    pub(crate) fn get(&self, key: &str) -> Option<&str> {
        find(&self.query, key)
    }

    pub(crate) fn sent(&self, key: &str) -> Option<&str> {
        find(&self.form, key)
    }

    pub(crate) fn cookie(&self, key: &str) -> Option<&str> {
        find(&self.cookies, key)
    }

    /// Units of the reader: those of the address, else the setting, else field.
    pub(crate) fn units(&self) -> System {
        let named = self.get("units").or_else(|| self.cookie("units"));
        named.and_then(|name| name.parse().ok()).unwrap_or(System::Field)
    }

    /// `paper`, `night`, or as the screen says.
    pub(crate) fn theme(&self) -> Option<&'static str> {
        ["paper", "night"].into_iter().find(|theme| self.cookie("theme") == Some(theme))
    }

    /// What asks.
    pub(crate) fn turning(&self) -> Turning {
        match self.get("live") {
            None => Turning::Rest,
            Some("step") => Turning::Step,
            Some(_) => Turning::Drag,
        }
    }

    /// Whether hydrostatic figures of kill papers take the trade's rounded constants.
    pub(crate) fn trade_constants(&self) -> bool {
        self.cookie("constants") == Some("trade")
    }

    /// The well and the what-if that the address names.
    pub(crate) fn case(&self) -> Case {
        let kept = self.query.iter().filter(|(key, _)| key == "kept").take(Case::MOST_KEPT);
        Case {
            well: self.get("well").unwrap_or_default().to_owned(),
            changes: Changes::from_pairs(&self.query),
            kept: kept.map(|(_, kept)| Changes::from_pairs(&pairs(kept.as_bytes()))).collect(),
        }
    }
}

/// What asks: a reader, or the page's script while somebody turns a knob. The script takes only what stands in the way of the
/// knob, and asks once more when it rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Turning {
    /// Nobody turns anything: the whole page.
    Rest,
    /// One step was taken: no remedies yet, but the knobs, whose own steps have moved.
    Step,
    /// A knob is moving: neither.
    Drag,
}

/// What a page is about: a well, what is changed in it, and further what-ifs that are kept beside. All of it stands in
/// the address, so that it can be sent and reloaded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Case {
    pub(crate) well: String,
    pub(crate) changes: Changes,
    pub(crate) kept: Vec<Changes>,
}

impl Case {
    pub(crate) const MOST_KEPT: usize = 6;

    /// The address of a page about this.
    pub(crate) fn url(&self, path: &str, more: &[(&str, &str)]) -> String {
        Links::of(self, "&").url(path, more)
    }

    /// For a page with many addresses.
    pub(crate) fn links(&self) -> Links {
        Links::of(self, "&amp;")
    }

    /// The same well with other changes.
    pub(crate) fn with(&self, changes: Changes) -> Case {
        Case { changes, ..self.clone() }
    }

    /// The same with one more change.
    pub(crate) fn and(&self, path: &str, value: &str) -> Case {
        let mut changes = self.changes.clone();
        changes.set(path, value);
        self.with(changes)
    }
}

/// Addresses of pages about one case: what all of them share is written once.
pub(crate) struct Links {
    /// Before what a page adds.
    well: String,
    /// Behind it.
    rest: String,
    /// What stands between two pairs.
    and: &'static str,
}

impl Links {
    fn of(case: &Case, and: &'static str) -> Links {
        let (mut well, mut rest) = (String::from("?"), String::new());
        pair(&mut well, "well", &case.well);
        for (path, value) in case.changes.iter() {
            rest.push_str(and);
            pair(&mut rest, &format!("if.{path}"), value);
        }
        for kept in &case.kept {
            rest.push_str(and);
            pair(&mut rest, "kept", &written(kept));
        }
        Links { well, rest, and }
    }

    fn url(&self, path: &str, more: &[(&str, &str)]) -> String {
        let mut url = String::with_capacity(path.len() + self.well.len() + self.rest.len() + 64);
        url.push_str(path);
        url.push_str(&self.well);
        for (key, value) in more {
            url.push_str(self.and);
            pair(&mut url, key, value);
        }
        url.push_str(&self.rest);
        url
    }

    /// The address of a page of the program, escaped already: of what a query may hold, only the sign between its pairs wants that.
    pub(crate) fn href(&self, path: &str, more: &[(&str, &str)]) -> PreEscaped<String> {
        PreEscaped(self.url(path, more))
    }
}

/// Adds a pair to a query.
fn pair(query: &mut String, key: &str, value: &str) {
    encode(query, key);
    query.push('=');
    encode(query, value);
}

/// Adds a text as a form would write it, but for the brackets of paths, which stay as one reads them.
fn encode(query: &mut String, text: &str) {
    for piece in form_urlencoded::byte_serialize(text.as_bytes()) {
        query.push_str(match piece {
            "%5B" => "[",
            "%5D" => "]",
            other => other,
        });
    }
}

/// Changes as a query.
pub(crate) fn written(changes: &Changes) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    for (path, value) in changes.iter() {
        query.append_pair(&format!("if.{path}"), value);
    }
    query.finish()
}

/// What is sent back.
pub(crate) enum Reply {
    /// A page of the program.
    Page { status: u16, markup: Markup },
    /// Another address, with cookies to set.
    Go { to: String, cookies: Vec<String> },
    /// A file: type, name to save it under, content.
    File { kind: &'static str, name: Option<String>, body: Vec<u8> },
}

impl Reply {
    pub(crate) fn page(markup: Markup) -> Reply {
        Reply::Page { status: 200, markup }
    }

    pub(crate) fn go(to: String) -> Reply {
        Reply::Go { to, cookies: Vec::new() }
    }
}
