//! Which display the window opens on.

use eframe::EventLoopBuilderHook;

/// A Wayland display that is named and does not answer is passed over for an X server that is named
/// as well: a terminal can outlive the desktop it was opened on.
#[cfg(all(unix, not(target_os = "macos")))]
pub fn choose() -> Option<EventLoopBuilderHook> {
    use std::env::var_os;
    use std::os::unix::net::UnixStream;
    use std::path::Path;

    use winit::platform::x11::EventLoopBuilderExtX11 as _;

    let named = |name| var_os(name).filter(|value| !value.is_empty());
    let wayland = named("WAYLAND_DISPLAY")?;
    named("DISPLAY")?;
    if named("WAYLAND_SOCKET").is_some() {
        return None;
    }
    let folder = named("XDG_RUNTIME_DIR").unwrap_or_default();
    let socket = Path::new(&folder).join(wayland);
    match UnixStream::connect(socket) {
        Ok(_) => None,
        Err(_) => Some(Box::new(|builder| {
            builder.with_x11();
        })),
    }
}

/// Elsewhere there is one.
#[cfg(not(all(unix, not(target_os = "macos"))))]
pub fn choose() -> Option<EventLoopBuilderHook> {
    None
}
