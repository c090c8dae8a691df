//! Listening: connections are counted, slow ones are dropped, a stop lets running answers end.

use crate::{Server, router};
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

/// Connections at once; more wait.
const MOST_CONNECTIONS: usize = 256;
/// Time for the head of a request.
const HEAD_TIME: Duration = Duration::from_secs(10);
/// Time that running answers have when the server is stopped.
const STOP_TIME: Duration = Duration::from_secs(5);

/// Serves until the program is told to stop. `ready` hears where.
///
/// # Errors
/// When the address cannot be had.
pub fn serve(
    make: impl FnOnce(SocketAddr) -> io::Result<Server>,
    address: SocketAddr,
    ready: impl FnOnce(SocketAddr),
) -> io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async {
        let listener = TcpListener::bind(address).await?;
        let address = listener.local_addr()?;
        let server = Arc::new(make(address)?);
        ready(address);
        accept(&listener, server, told_to_stop()).await;
        Ok(())
    })
}

async fn accept(listener: &TcpListener, server: Arc<Server>, stop: impl Future<Output = ()>) {
    let routes = TowerToHyperService::new(router(server));
    let places = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    let graceful = GracefulShutdown::new();
    tokio::pin!(stop);
    loop {
        let next = async {
            let place = places.clone().acquire_owned().await;
            (place, listener.accept().await)
        };
        let (place, stream) = tokio::select! {
            next = next => match next {
                (Ok(place), Ok((stream, _))) => (place, stream),
                // Too many open files, or a caller that hung up: both pass.
                _ => {
                    tokio::time::sleep(Duration::from_millis(20)).await;
                    continue;
                }
            },
            () = &mut stop => break,
        };
        let mut http = hyper::server::conn::http1::Builder::new();
        http.timer(TokioTimer::new()).header_read_timeout(HEAD_TIME).max_buf_size(64 << 10);
        let connection = graceful.watch(http.serve_connection(TokioIo::new(stream), routes.clone()));
        tokio::spawn(async move {
            // A caller that breaks off is no fault of ours.
            let _ = connection.await;
            drop(place);
        });
    }
    tokio::select! {
        () = graceful.shutdown() => {}
        () = tokio::time::sleep(STOP_TIME) => {}
    }
}

async fn told_to_stop() {
    let key = async {
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    };
    #[cfg(unix)]
    let term = async {
        match tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) {
            Ok(mut signal) => {
                signal.recv().await;
            }
            Err(_) => std::future::pending().await,
        }
    };
    #[cfg(not(unix))]
    let term = std::future::pending::<()>();
    tokio::select! {
        () = key => {}
        () = term => {}
    }
}
