//! What every request passes: whose address it names, where it comes from, who sends it; and what every answer bears.

use crate::Server;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderMap, HeaderValue};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::net::IpAddr;
use std::sync::Arc;
use std::time::Instant;

/// Nothing from elsewhere, nothing written into a page, no frame around it. `blob:` serves the saving of pictures.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; \
                      form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
/// A longer address is refused. [byte]
const LONGEST_ADDRESS: usize = 16 << 10;

/// Name of the cookie of those who have entered.
pub(crate) const SESSION: &str = "rigwright_session";

pub(crate) async fn guard(State(server): State<Arc<Server>>, request: Request, next: Next) -> Response {
    let mut response = match refusal(&server, &request) {
        Some(response) => response,
        None => next.run(request).await,
    };
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (header::REFERRER_POLICY, "same-origin"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.insert("cross-origin-opener-policy", HeaderValue::from_static("same-origin"));
    headers.insert("cross-origin-resource-policy", HeaderValue::from_static("same-origin"));
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

fn refusal(server: &Server, request: &Request) -> Option<Response> {
    let plain = |status: StatusCode, words: &'static str| Some((status, words).into_response());
    let headers = request.headers();
    if request.uri().to_string().len() > LONGEST_ADDRESS {
        return plain(StatusCode::URI_TOO_LONG, "the address is too long");
    }
    let Some(host) = one(headers, &header::HOST).filter(|host| host_is_ours(host, server)) else {
        return plain(StatusCode::MISDIRECTED_REQUEST, "this server does not go by that name; use its number");
    };
    match *request.method() {
        Method::GET | Method::HEAD => {}
        Method::POST if comes_from_here(headers, host) => {}
        Method::POST => return plain(StatusCode::FORBIDDEN, "sent from another page"),
        _ => return plain(StatusCode::METHOD_NOT_ALLOWED, "only GET and POST"),
    }
    let path = request.uri().path();
    let open = path == "/enter" || path.starts_with("/assets/");
    let access = server.access.as_ref().filter(|_| !open)?;
    let known = cookies(headers).iter().any(|(name, value)| name == SESSION && access.knows(value, Instant::now()));
    if known {
        return None;
    }
    if *request.method() == Method::GET {
        let to = HeaderValue::from_static("/enter");
        return Some((StatusCode::SEE_OTHER, [(header::LOCATION, to)], Body::empty()).into_response());
    }
    plain(StatusCode::UNAUTHORIZED, "enter first")
}

/// The one value of a header; two are a trick.
fn one<'a>(headers: &'a HeaderMap, name: &header::HeaderName) -> Option<&'a str> {
    let mut values = headers.get_all(name).iter();
    let value = values.next()?.to_str().ok()?;
    values.next().is_none().then_some(value)
}

/// A page elsewhere can make a name of its own mean our address, but it cannot own a number: only numbers and
/// `localhost` are answered, at our port.
fn host_is_ours(host: &str, server: &Server) -> bool {
    let (name, port) = match host.rsplit_once(':') {
        Some((name, port)) if !port.ends_with(']') => (name, port.parse::<u16>().ok()),
        _ => (host, Some(80)),
    };
    if port != Some(server.port) {
        return false;
    }
    if name.eq_ignore_ascii_case("localhost") {
        return true;
    }
    let number: Result<IpAddr, _> = name.trim_start_matches('[').trim_end_matches(']').parse();
    number.is_ok_and(|number| !server.loopback || number.is_loopback())
}

/// Browsers say where a form was sent from.
fn comes_from_here(headers: &HeaderMap, host: &str) -> bool {
    let site = headers.get("sec-fetch-site").is_none_or(|site| site == "same-origin");
    let origin = match headers.get(header::ORIGIN) {
        Some(origin) => origin.to_str().is_ok_and(|origin| origin == format!("http://{host}")),
        None => true,
    };
    site && origin
}

/// Cookies of a request.
pub(crate) fn cookies(headers: &HeaderMap) -> Vec<(String, String)> {
    let lines = headers.get_all(header::COOKIE).iter().filter_map(|line| line.to_str().ok());
    let parts = lines.flat_map(|line| line.split(';')).filter_map(|part| part.trim().split_once('='));
    parts.map(|(name, value)| (name.to_owned(), value.to_owned())).collect()
}
