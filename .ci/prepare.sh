# Sourced by `start` and `test`: installs what is missing, and finds Dear ImGui's renderer source.
# Says what it does; does nothing (and asks for no rights) when everything is there.

packages_missing() {   # $1: "run", "test" or "long" (what only `./test --all` needs)
    local until
    case "$1" in run) until='^## test' ;; test) until='^## long' ;; *) until='^## no such' ;; esac
    local wanted
    wanted=$(sed "/$until/,\$d" .ci/packages | grep -v '^#')
    local have
    have=$(dpkg-query -W -f '${db:Status-Abbrev} ${Package}\n' 2>/dev/null | sed -n 's/^ii *//p')
    comm -23 <(printf '%s\n' $wanted | sort -u) <(printf '%s\n' "$have" | sort -u)
}

as_root() {
    if [ "$(id -u)" = 0 ]; then "$@"
    elif command -v sudo >/dev/null; then sudo "$@"
    else
        echo "These packages are missing and installing them needs root or sudo:" >&2
        echo "  $missing" | tr '\n' ' ' >&2; echo >&2
        exit 2
    fi
}

install_packages() {   # $1: "run", "test" or "long"
    if ! command -v dpkg-query >/dev/null; then
        echo "This is not a Debian system: install the packages of .ci/packages by hand." >&2; return 0
    fi
    missing=$(packages_missing "$1")
    [ -z "$missing" ] && return 0
    echo "== Installing $(printf '%s\n' "$missing" | wc -l) packages:" $missing
    as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing
}

# Slim images leave out /usr/share/doc, where the package ships the renderer source: take it from the package.
find_imgui_source() {   # $1: build folder
    local shipped=usr/share/doc/libimgui-dev/examples/backends
    [ -e "/$shipped/imgui_impl_sdlrenderer.cpp" ] && return 0
    [ -e "$1/imgui-source/imgui_impl_sdlrenderer.cpp" ] && return 0
    echo "== Taking the window toolkit's renderer source from its package"
    mkdir -p "$1/imgui-source"
    (cd "$1/imgui-source" && apt-get download -q libimgui-dev &&
     dpkg-deb --fsys-tarfile libimgui-dev_*.deb | tar -x --strip-components=7 "./$shipped" && rm libimgui-dev_*.deb)
}
