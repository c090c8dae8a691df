//! One file a page. Each is a function from what is asked to a reply.

pub(crate) mod answer;
pub(crate) mod beside;
pub(crate) mod due;
pub(crate) mod edit;
pub(crate) mod enter;
pub(crate) mod fill;
pub(crate) mod formulas;
pub(crate) mod home;
pub(crate) mod inputs;
pub(crate) mod kill;
pub(crate) mod knobs;
pub(crate) mod manual;
pub(crate) mod new;
pub(crate) mod paper;
pub(crate) mod papers;
pub(crate) mod picture;
pub(crate) mod pictures;
pub(crate) mod record;
pub(crate) mod settings;
pub(crate) mod sheet;
pub(crate) mod survey;
pub(crate) mod working;
pub(crate) mod write;
