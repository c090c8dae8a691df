//! Settings of the reader, kept in his browser: units, theme, constants of kill papers, whose rules.

use crate::Server;
use crate::ask::{Ask, Reply};
use crate::frame::{Frame, secret};
use maud::{Markup, html};
use rigwright_margins::due::JURISDICTIONS;

/// A setting: its name, and its words with what they mean. The first holds where nobody chose.
struct Setting {
    name: &'static str,
    title: &'static str,
    words: Vec<(&'static str, &'static str)>,
}

fn settings() -> [Setting; 4] {
    let whose = JURISDICTIONS.iter().filter_map(|one| Some((*one.words.first()?, one.name)));
    [
        Setting {
            name: "units",
            title: "Units",
            words: vec![
                ("field", "Field: ft, ppg, psi, klbf, gpm"),
                ("metric", "Metric: m, sg, bar, t, L/min"),
                ("canadian", "Canadian metric: m, kg/m³, kPa, daN, m³/min"),
            ],
        },
        Setting {
            name: "theme",
            title: "Theme",
            words: vec![("auto", "As the screen says"), ("paper", "Paper: dark on white"), ("night", "Night: light on dark")],
        },
        Setting {
            name: "constants",
            title: "Constants of the kill desk",
            words: vec![("exact", "Exact gravity"), ("trade", "The trade's rounded 0.052 psi/ft/ppg")],
        },
        Setting {
            name: "jurisdiction",
            title: "Rules of tests and drills, where the well file names none",
            words: [("none", "None: nothing is shown as met")].into_iter().chain(whose).collect(),
        },
    ]
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let chosen = |setting: &Setting| match setting.name {
        "units" => ask.units().name().to_owned(),
        name => {
            let kept = setting.words.iter().find(|(word, _)| ask.cookie(name) == Some(*word));
            kept.or(setting.words.first()).map_or_else(String::new, |(word, _)| (*word).to_owned())
        }
    };
    let body = html! {
        h1 { "Settings" }
        p.faint { "Kept in this browser only." }
        form.narrow method="post" action="/settings" {
            (secret(server))
            input type="hidden" name="back" value=(ask.get("back").unwrap_or("/"));
            @for setting in &settings() { (choices(setting, &chosen(setting))) }
            button { "Keep" }
        }
    };
    Reply::page(Frame::new("Settings").page(server, ask, &body))
}

fn choices(setting: &Setting, chosen: &str) -> Markup {
    html! {
        fieldset {
            legend { (setting.title) }
            @for (word, means) in &setting.words {
                label.choice { input type="radio" name=(setting.name) value=(word) checked[*word == chosen]; " " (means) }
            }
        }
    }
}

pub(crate) fn keep(_: &Server, ask: &Ask) -> Reply {
    let known = |setting: &Setting| {
        let sent = ask.sent(setting.name)?;
        let word = setting.words.iter().find(|(word, _)| *word == sent)?.0;
        Some(format!("{}={word}; Path=/; Max-Age=31536000; HttpOnly; SameSite=Lax", setting.name))
    };
    // Only a way inside these pages.
    let back = ask.sent("back").filter(|back| back.starts_with('/') && !back.starts_with("//") && !back.contains('\\'));
    Reply::Go { to: back.unwrap_or("/").to_owned(), cookies: settings().iter().filter_map(known).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigwright_units::System;

    #[test]
    fn every_system_of_units_can_be_chosen() {
        let words: Vec<&str> = settings()[0].words.iter().map(|(word, _)| *word).collect();
        let known: Vec<&str> = System::ALL.iter().map(|system| system.name()).collect();
        assert_eq!(words, known);
    }
}
