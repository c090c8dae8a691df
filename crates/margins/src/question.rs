//! A question: one thing asked of a scope, put so that demand must not exceed capacity.

use crate::{Answer, Scene};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

/// One question of the catalogue.
pub struct Question {
    /// `system/question`, stable for ever.
    pub slug: &'static str,
    /// The question as a driller would ask it.
    pub asks: &'static str,
    /// A few words for the row of a sheet.
    pub title: &'static str,
    /// Kind of demand and capacity.
    pub kind: Kind,
    /// How often it is asked.
    pub scope: Scope,
    /// What the crew may turn to mend it: names of knobs of the entry table, likeliest first.
    pub knobs: &'static [&'static str],
    /// What the method leaves out or takes for granted, for the list of assumptions.
    pub assumes: &'static [&'static str],
    /// The answer.
    pub ask: fn(&Scene, &mut Off) -> Answer,
    /// The same with its working.
    pub show: fn(&Scene, &mut Working) -> Answer,
}

/// How often a question is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// In every situation; a question that only some operations raise does not arise in the others.
    Situation,
    /// Once a section, with the section at its end and the bit on bottom.
    Section,
    /// Once a rig.
    Rig,
}

impl Question {
    /// The system: the word before the stroke.
    pub fn system(&self) -> &'static str {
        self.slug.split('/').next().unwrap_or(self.slug)
    }
}

/// A system of the rig: its word and its questions.
pub struct System {
    /// One of the five words.
    pub name: &'static str,
    /// Its questions by part, in the order of the sheet.
    pub parts: &'static [&'static [Question]],
    /// What a reader may expect and is not looked at yet: (slug, what it would ask).
    pub not_yet: &'static [(&'static str, &'static str)],
}

impl System {
    /// Its questions, in the order of the sheet.
    pub fn questions(&self) -> impl Iterator<Item = &'static Question> + use<> {
        self.parts.iter().flat_map(|part| part.iter())
    }
}
