//! The access phrase, asked for where others can reach the page.

use crate::Server;
use crate::access::Entry;
use crate::ask::{Ask, Reply};
use crate::frame::{Frame, secret, sorry};
use crate::guard::SESSION;
use crate::router::{now, session};
use maud::html;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    form(server, ask, 200, None)
}

fn form(server: &Server, ask: &Ask, status: u16, wrong: Option<&str>) -> Reply {
    let body = html! {
        h1 { "Access phrase" }
        form.narrow method="post" action="/enter" {
            (secret(server))
            @if let Some(wrong) = wrong { p role="alert" { (wrong) } }
            label { "The phrase that was shown where the program was started"
                input type="password" name="phrase" autocomplete="current-password" required autofocus;
            }
            button { "Enter" }
        }
    };
    Reply::Page { status, markup: Frame::new("Access phrase").page(server, ask, &body) }
}

pub(crate) fn enter(server: &Server, ask: &Ask) -> Reply {
    let Some(access) = &server.access else { return Reply::go("/".to_owned()) };
    match access.enter(ask.sent("phrase").unwrap_or_default(), now()) {
        Ok(Entry::In(secret)) => {
            let cookie = format!("{SESSION}={}; Path=/; HttpOnly; SameSite=Strict", secret.text());
            Reply::Go { to: "/".to_owned(), cookies: vec![cookie] }
        }
        Ok(Entry::Wrong) => form(server, ask, 401, Some("That is not the phrase.")),
        Ok(Entry::Wait) => form(server, ask, 429, Some("Too many tries. Wait a minute.")),
        Err(_) => sorry(server, ask, 500, "Entering failed", "This machine gives no random numbers."),
    }
}

pub(crate) fn leave(server: &Server, ask: &Ask) -> Reply {
    if let (Some(access), Some(cookie)) = (&server.access, session(ask)) {
        access.leave(cookie);
    }
    let cookie = format!("{SESSION}=; Path=/; Max-Age=0; HttpOnly; SameSite=Strict");
    Reply::Go { to: "/".to_owned(), cookies: vec![cookie] }
}
