//! Which page answers which address, and the way of a request to it.

use crate::Server;
use crate::ask::{Ask, Reply, pairs};
use crate::guard::{SESSION, cookies, guard};
use crate::{frame, pages};
use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, State};
use axum::http::header::{self, HeaderMap, HeaderValue};
use axum::http::{HeaderName, StatusCode, Uri};
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};
use std::sync::Arc;
use std::time::{Duration, Instant};
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::timeout::TimeoutLayer;

/// Larger forms are refused: the largest file, as a form writes it. [byte]
const LARGEST_FORM: usize = 3 * rigwright_wellfile::LARGEST_FILE as usize;
/// No answer takes longer.
const ANSWER_TIME: Duration = Duration::from_secs(20);

/// A page: what is asked, and what is answered.
type Page = fn(&Server, &Ask) -> Reply;

const STYLE: &str = include_str!("../assets/page.css");
const SCRIPTS: [(&str, &str); 4] = [
    ("/assets/page.js", include_str!("../assets/page.js")),
    ("/assets/whatif.js", include_str!("../assets/whatif.js")),
    ("/assets/figure.js", include_str!("../assets/figure.js")),
    ("/assets/editor.js", include_str!("../assets/editor.js")),
];

/// All addresses.
pub fn router(server: Arc<Server>) -> Router {
    let mut router = Router::new()
        .route("/", shown(pages::home::page))
        .route("/sheet", shown(pages::sheet::page))
        .route("/answer", shown(pages::answer::page))
        .route("/course.csv", shown(pages::answer::csv))
        .route("/pictures", shown(pages::pictures::page))
        .route("/pictures.csv", shown(pages::pictures::csv))
        .route("/beside", shown(pages::beside::page))
        .route("/inputs", shown(pages::inputs::page))
        .route("/write", shown(pages::write::page).merge(sent(pages::write::write)))
        .route("/undo", sent(pages::write::undo))
        .route("/edit", shown(pages::edit::page).merge(sent(pages::edit::save)))
        .route("/put", sent(pages::edit::put))
        .route("/check", sent(pages::edit::check))
        .route("/new", shown(pages::new::page).merge(sent(pages::new::make)))
        .route("/survey", shown(pages::survey::page).merge(sent(pages::survey::take)))
        .route("/kill", shown(pages::kill::page))
        .route("/due", shown(pages::due::page))
        .route("/papers", shown(pages::papers::page))
        .route("/paper", shown(pages::papers::one))
        .route("/paper.pdf", shown(pages::papers::as_pdf))
        .route("/paper.xlsx", shown(pages::papers::as_workbook))
        .route("/formulas", shown(pages::formulas::list))
        .route("/formulas/{slug}", shown(pages::formulas::one))
        .route("/manual", shown(pages::manual::index))
        .route("/manual/{page}", shown(pages::manual::one))
        .route("/settings", shown(pages::settings::page).merge(sent(pages::settings::keep)))
        .route("/enter", shown(pages::enter::page).merge(sent(pages::enter::enter)))
        .route("/leave", sent(pages::enter::leave))
        .route("/assets/page.css", get(|| async { asset("text/css; charset=utf-8", STYLE) }));
    for (path, text) in SCRIPTS {
        router = router.route(path, get(move || async move { asset("text/javascript; charset=utf-8", text) }));
    }
    router
        .fallback(shown(pages::home::nowhere))
        .layer(CatchPanicLayer::custom(|_| broken()))
        .layer(TimeoutLayer::with_status_code(StatusCode::SERVICE_UNAVAILABLE, ANSWER_TIME))
        .layer(DefaultBodyLimit::max(LARGEST_FORM))
        .layer(axum::middleware::from_fn_with_state(server.clone(), guard))
        .with_state(server)
}

fn asset(kind: &'static str, text: &'static str) -> Response {
    ([(header::CONTENT_TYPE, kind), (header::CACHE_CONTROL, "no-cache")], text).into_response()
}

/// A page that is only looked at.
fn shown(page: Page) -> MethodRouter<Arc<Server>> {
    get(move |State(server): State<Arc<Server>>, uri: Uri, headers: HeaderMap| async move {
        let ask = ask(&server, &uri, &headers, Vec::new());
        answer(server, page, ask).await
    })
}

/// What a form asks for; refused without the secret that stands in our forms.
fn sent(page: Page) -> MethodRouter<Arc<Server>> {
    post(move |State(server): State<Arc<Server>>, uri: Uri, headers: HeaderMap, body: Bytes| async move {
        let ask = ask(&server, &uri, &headers, pairs(&body));
        if !ask.sent("form_secret").is_some_and(|secret| server.form_secret.is(secret)) {
            let words = "This form was made before the server was last started, or elsewhere. Go back, load the page again, \
                         and send it once more.";
            return reply(frame::sorry(&server, &ask, 403, "The form is not ours", words));
        }
        answer(server, page, ask).await
    })
}

fn ask(server: &Server, uri: &Uri, headers: &HeaderMap, form: Vec<(String, String)>) -> Ask {
    Ask {
        path: uri.path().to_owned(),
        query: pairs(uri.query().unwrap_or_default().as_bytes()),
        form,
        cookies: cookies(headers),
        as_of: (server.clock)(),
    }
}

/// Makes an answer on a thread that may take its time. Who hangs up before his turn is not served: the latest of several
/// what-ifs is not kept waiting by those that nobody wants any more.
async fn answer(server: Arc<Server>, page: Page, ask: Ask) -> Response {
    let waiting = server.clone();
    let Ok(_desk) = waiting.desks.acquire().await else { return broken() };
    match tokio::task::spawn_blocking(move || page(&server, &ask)).await {
        Ok(made) => reply(made),
        Err(_) => broken(),
    }
}

fn broken() -> Response {
    let words = "A fault of this program: it could not make that page. Nothing was written. Go back and try another way.";
    (StatusCode::INTERNAL_SERVER_ERROR, words).into_response()
}

fn reply(made: Reply) -> Response {
    match made {
        Reply::Page { status, markup } => {
            let status = StatusCode::from_u16(status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
            (status, [(header::CONTENT_TYPE, "text/html; charset=utf-8")], markup.into_string()).into_response()
        }
        Reply::Go { to, cookies } => {
            let mut response = StatusCode::SEE_OTHER.into_response();
            let Ok(to) = HeaderValue::from_str(&to) else { return broken() };
            response.headers_mut().insert(header::LOCATION, to);
            for cookie in cookies.iter().filter_map(|cookie| HeaderValue::from_str(cookie).ok()) {
                response.headers_mut().append(header::SET_COOKIE, cookie);
            }
            response
        }
        Reply::File { kind, name, body } => {
            let mut response = ([(header::CONTENT_TYPE, kind)], Body::from(body)).into_response();
            let saved = name.and_then(|name| HeaderValue::from_str(&format!("attachment; filename=\"{name}\"")).ok());
            if let Some(saved) = saved {
                response.headers_mut().insert(HeaderName::from_static("content-disposition"), saved);
            }
            response
        }
    }
}

/// The session cookie of a request.
pub(crate) fn session(ask: &Ask) -> Option<&str> {
    ask.cookie(SESSION)
}

/// The moment, for counting tries.
pub(crate) fn now() -> Instant {
    Instant::now()
}
