#include "ui/window/window.h"

#include "ui/window/drawn_frame.h"
#include "ui/window/inside.h"

#include <cairo.h>
#include <imgui.h>
#include <imgui_impl_sdl.h>
#include <imgui_impl_sdlrenderer.h>
#include <imgui_internal.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace ui {
namespace {

double steady_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void paper_style() {
    ImGuiStyle& style = ImGui::GetStyle();
    style.WindowPadding = ImVec2(0, 0);
    style.WindowBorderSize = 0;
    style.WindowRounding = 0;
    style.ScrollbarSize = 10;
    style.ScrollbarRounding = 4;
    const auto set = [&style](ImGuiCol_ what, std::uint32_t rgb) {
        style.Colors[what] = ImGui::ColorConvertU32ToFloat4(ink_of(rgb));
    };
    set(ImGuiCol_Text, colour::ink);
    set(ImGuiCol_FrameBg, colour::field);
    set(ImGuiCol_FrameBgHovered, colour::field);
    set(ImGuiCol_FrameBgActive, colour::field);
    set(ImGuiCol_TextSelectedBg, colour::chosen);
    set(ImGuiCol_ScrollbarBg, 0xEFE8DA);
    set(ImGuiCol_ScrollbarGrab, colour::soft);
    set(ImGuiCol_ChildBg, colour::field);
    set(ImGuiCol_NavHighlight, colour::field);
}

// Keys that editing needs; the others are ours and the toolkit never sees them.
bool edits(SDL_Scancode scan, bool many_lines) {
    switch (scan) {
        case SDL_SCANCODE_LEFT:
        case SDL_SCANCODE_RIGHT:
        case SDL_SCANCODE_HOME:
        case SDL_SCANCODE_END:
        case SDL_SCANCODE_DELETE:
        case SDL_SCANCODE_BACKSPACE:
        case SDL_SCANCODE_A:
        case SDL_SCANCODE_C:
        case SDL_SCANCODE_V:
        case SDL_SCANCODE_X: return true;
        case SDL_SCANCODE_UP:
        case SDL_SCANCODE_DOWN:
        case SDL_SCANCODE_RETURN:
        case SDL_SCANCODE_KP_ENTER: return many_lines;
        default: return false;
    }
}

}  // namespace

struct Window::Inside {
    SDL_Window* window = nullptr;
    SDL_Renderer* renderer = nullptr;
    std::unique_ptr<Frame::Inside> frame;
    double text_size = 1, asked_text_size = 1;
    bool quit = false, sdl = false, toolkit = false;
    std::optional<bool> hidden;  // changed since the last frame
    double last_frame = 0, cost = 0;
    DrawnFrame drawn, drawn_before;
    std::uint64_t drawn_pictures = 0;  // Pictures::changes() when that frame was rendered
    // the renderer leaves the window's pixels where they are: parts can be renewed
    bool keeps_pixels = false;
    bool always_whole = false;
    bool whole_next = true;  // something outside our own drawing may have touched the window
    double share = 1;        // of the window rendered in the last frame

    ~Inside() {
        if (toolkit) {
            ImGui_ImplSDLRenderer_Shutdown();
            ImGui_ImplSDL2_Shutdown();
            ImGui::DestroyContext();
        }
        frame.reset();
        if (renderer != nullptr) SDL_DestroyRenderer(renderer);
        if (window != nullptr) SDL_DestroyWindow(window);
        if (sdl) SDL_QuitSubSystem(SDL_INIT_VIDEO);
    }

    // Below 640x400 at 100 % the screens' parts would lie over each other.
    double room_for_text() const {
        int w = 0, h = 0;
        SDL_GetRendererOutputSize(renderer, &w, &h);
        return std::clamp(std::floor(std::min(w / 640.0, h / 400.0) * 20) / 20, 1.0, 2.0);
    }

    std::string letters() {
        ImGui_ImplSDLRenderer_DestroyFontsTexture();
        const std::string fault = build_fonts(text_size, frame->fonts);
        if (!fault.empty()) return fault;
        ImGui_ImplSDLRenderer_CreateFontsTexture();
        ImGui::GetIO().Fonts->ClearTexData();  // the processor's copy is not needed again
        frame->pictures.drop_all();
        frame->page = nullptr;
        whole_next = true;
        frame->scale = static_cast<float>(text_size);
        return "";
    }

    void take_events() {
        SDL_Event event;
        while (SDL_PollEvent(&event) != 0) {
            if (event.type == SDL_QUIT) quit = true;
            if (event.type == SDL_WINDOWEVENT && event.window.event == SDL_WINDOWEVENT_CLOSE) quit = true;
            if (event.type == SDL_WINDOWEVENT && (event.window.event == SDL_WINDOWEVENT_MINIMIZED ||
                                                  event.window.event == SDL_WINDOWEVENT_HIDDEN))
                hidden = true;
            if (event.type == SDL_WINDOWEVENT && event.window.event == SDL_WINDOWEVENT_RESTORED)
                hidden = false;
            if (event.type == SDL_WINDOWEVENT) whole_next = true;
            if (event.type == SDL_RENDER_TARGETS_RESET || event.type == SDL_RENDER_DEVICE_RESET) {
                frame->pictures.drop_all();
                frame->page = nullptr;
                whole_next = true;
            }
            frame->input.queue(event);
            frame->again = std::max(frame->again, 2);
        }
    }

    // Until something comes, or so many milliseconds. Where there is no display to wake us, SDL looks every
    // millisecond, which costs more than the drawing; we look every ten.
    void wait(int ms) const {
        const char* driver = SDL_GetCurrentVideoDriver();
        if (driver == nullptr || SDL_strcmp(driver, "dummy") != 0) {
            SDL_WaitEventTimeout(nullptr, ms);
            return;
        }
        for (int left = ms; left > 0; left -= 10) {
            SDL_PumpEvents();
            if (SDL_HasEvents(SDL_FIRSTEVENT, SDL_LASTEVENT) == SDL_TRUE) return;
            SDL_Delay(static_cast<Uint32>(std::min(left, 10)));
        }
    }

    // Ctrl +/- and the focus keys, before the screen sees the frame.
    void own_keys() {
        Frame::Inside& f = *frame;
        const SDL_Keycode k = f.input.key;
        if (k == 0) return;
        const bool ctrl = (f.input.mods & KMOD_CTRL) != 0;
        const bool shift = (f.input.mods & KMOD_SHIFT) != 0;
        if (ctrl && (k == SDLK_PLUS || k == SDLK_EQUALS || k == SDLK_KP_PLUS))
            asked_text_size = text_size + 0.25;
        if (ctrl && (k == SDLK_MINUS || k == SDLK_KP_MINUS)) asked_text_size = text_size - 0.25;
        if (ctrl && (k == SDLK_0 || k == SDLK_KP_0)) asked_text_size = 1.0;
        if (k == SDLK_F11) {
            const bool full = (SDL_GetWindowFlags(window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
            SDL_SetWindowFullscreen(window, full ? 0 : SDL_WINDOW_FULLSCREEN_DESKTOP);
        }
        if (k == SDLK_TAB) {
            f.focus.step(shift ? -1 : 1);
            f.key_taken = true;
        }
        const Focus::Stop* stop = f.focus.now();
        if (stop != nullptr && stop->kind == Focus::Kind::button && f.focus.ring()) {
            if (k == SDLK_LEFT || k == SDLK_RIGHT)
                f.key_taken = f.focus.move(k == SDLK_LEFT ? -1 : 1, 0) || f.key_taken;
            if (k == SDLK_UP || k == SDLK_DOWN)
                f.key_taken = f.focus.move(0, k == SDLK_UP ? -1 : 1) || f.key_taken;
        }
        // Also when the control has gone since (used up, other page): the ring's Escape is never the
        // screen's.
        if (k == SDLK_ESCAPE && (f.focus.ring() || (stop != nullptr && stop->kind == Focus::Kind::field))) {
            f.focus.put({}, false);
            f.key_taken = true;
        }
    }

    void feed_toolkit(double now) {
        Frame::Inside& f = *frame;
        ImGui_ImplSDLRenderer_NewFrame();
        ImGui_ImplSDL2_NewFrame();
        ImGuiIO& io = ImGui::GetIO();
        io.DeltaTime = static_cast<float>(std::clamp(now - last_frame, 1e-4, 0.25));
        io.MousePos = ImVec2(f.input.x, f.input.y);
        io.MouseDown[0] = f.input.down && !f.inert;
        io.MouseWheel = f.many_lines_last ? f.input.wheel : 0;
        io.KeyCtrl = (f.input.mods & KMOD_CTRL) != 0;
        io.KeyShift = (f.input.mods & KMOD_SHIFT) != 0;
        io.KeyAlt = false;
        io.KeySuper = false;
        if (f.input.key != 0 && !f.key_taken && edits(f.input.scan, f.many_lines_last)) {
            // A key held down repeats by SDL's own repeats: up for the toolkit first, then down again.
            io.KeysDown[f.input.scan] = true;
            io.KeysDownDuration[f.input.scan] = -1;
        }
        if (f.input.key_up != 0) io.KeysDown[f.input.scan_up] = false;
        if (!f.input.text.empty()) io.AddInputCharactersUTF8(f.input.text.c_str());
    }

    void draw(Screen& screen) {
        Frame::Inside& f = *frame;
        const double now = steady_s();
        int w = 0, h = 0;
        SDL_GetRendererOutputSize(renderer, &w, &h);
        f.w = static_cast<float>(w);
        f.h = static_cast<float>(h);
        f.now = now;
        f.key_taken = false;
        f.pointer_taken = false;
        f.inert = f.above = false;
        f.typing_id.clear();
        f.typing_words = f.many_lines = false;
        f.where.clear();
        f.overflows.clear();
        f.controls.clear();
        if (f.again > 0) --f.again;
        if (f.hold_input > 0) {
            --f.hold_input;
            f.input.went_down = f.input.went_up = false;
            f.input.key = f.input.key_up = 0;
            f.input.text.clear();
            f.input.wheel = 0;
        } else {
            f.input.next_frame();
        }
        own_keys();
        feed_toolkit(now);
        ImGui::NewFrame();
        ImGui::SetNextWindowPos(ImVec2(0, 0));
        ImGui::SetNextWindowSize(ImVec2(f.w, f.h));
        ImGui::Begin("page", nullptr,
                     ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoBackground |
                         ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoScrollWithMouse |
                         ImGuiWindowFlags_NoBringToFrontOnFocus);
        Frame for_screen(f);
        screen.draw(for_screen);
        ImGui::End();
        f.focus.end_frame();
        f.focus.moved = false;
        if (f.input.went_down && !f.pointer_taken) f.focus.put({}, false);
        if (f.input.went_up || !f.input.down) f.active.clear();
        if (f.focus.id() != f.asked_id) f.asked_id.clear();
        f.typing_last = f.typing_id;
        f.typing_words_last = f.typing_words;
        f.many_lines_last = f.many_lines;
        f.where_last.swap(f.where);
        f.overflows_last.swap(f.overflows);
        f.controls_last.swap(f.controls);
        ImGui::Render();
        std::swap(drawn, drawn_before);
        drawn.take(*ImGui::GetDrawData(), f.page, w, h);
        render(w, h);
        f.pictures.end_frame();
        last_frame = now;
        cost = steady_s() - now;
    }

    // The whole frame, or only where it differs from the one before.
    void render(int w, int h) {
        const bool same_pictures = drawn_pictures == frame->pictures.changes();
        drawn_pictures = frame->pictures.changes();
        std::optional<std::vector<SDL_Rect>> places;
        if (keeps_pixels && !always_whole && !whole_next && same_pictures)
            places = drawn.differs_from(drawn_before);
        if (places) {
            double pixels = 0;
            for (const SDL_Rect& place : *places) {
                drawn.render(renderer, place);
                pixels += static_cast<double>(place.w) * place.h;
            }
            share = pixels / (static_cast<double>(w) * h);
            if (places->empty()) return;
            SDL_RenderFlush(renderer);
            if (SDL_UpdateWindowSurfaceRects(window, places->data(), static_cast<int>(places->size())) == 0)
                return;
        }
        render_whole(w, h);
    }

    void render_whole(int w, int h) {
        drawn.render(renderer, {0, 0, w, h});
        SDL_RenderPresent(renderer);
        whole_next = false;
        share = 1;
    }

    void follow_text_size() {
        asked_text_size = std::clamp(asked_text_size, 1.0, 2.0);
        const double size = std::min(asked_text_size, room_for_text());
        if (size == text_size) return;
        text_size = size;
        letters();
        frame->again = std::max(frame->again, 2);
    }
};

Window::Window(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Window::~Window() = default;

std::unique_ptr<Window> Window::open(const WindowLook& look, std::string& fault) {
    auto in = std::make_unique<Inside>();
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, look.hardware ? "1" : "0");
    SDL_SetHint(SDL_HINT_RENDER_DRIVER, look.hardware ? "" : "software");
    SDL_SetHint(SDL_HINT_MOUSE_FOCUS_CLICKTHROUGH, "1");
    SDL_SetHint(SDL_HINT_VIDEO_ALLOW_SCREENSAVER, "0");
    SDL_SetHint(SDL_HINT_NO_SIGNAL_HANDLERS, "1");
    if (SDL_InitSubSystem(SDL_INIT_VIDEO) != 0) {
        fault = std::string("no screen to open a window on: ") + SDL_GetError();
        return nullptr;
    }
    in->sdl = true;
    const Uint32 flags =
        SDL_WINDOW_RESIZABLE | (look.fullscreen ? Uint32{SDL_WINDOW_FULLSCREEN_DESKTOP} : 0u);
    in->window = SDL_CreateWindow(look.title.c_str(), SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED,
                                  look.width, look.height, flags);
    if (in->window != nullptr)
        in->renderer = SDL_CreateRenderer(in->window, -1, look.hardware ? 0u : Uint32{SDL_RENDERER_SOFTWARE});
    if (in->renderer == nullptr) {
        fault = std::string("the window cannot be opened: ") + SDL_GetError();
        return nullptr;
    }
    SDL_RendererInfo about{};
    in->keeps_pixels =
        SDL_GetRendererInfo(in->renderer, &about) == 0 && (about.flags & SDL_RENDERER_SOFTWARE) != 0;
    SDL_SetWindowMinimumSize(in->window, 960, 600);
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    paper_style();
    ImGui_ImplSDL2_InitForSDLRenderer(in->window);
    ImGui_ImplSDLRenderer_Init(in->renderer);
    in->toolkit = true;
    in->frame = std::make_unique<Frame::Inside>(in->renderer);
    in->asked_text_size = std::clamp(look.text_size, 1.0, 2.0);
    in->text_size = std::min(in->asked_text_size, in->room_for_text());
    fault = in->letters();
    if (!fault.empty()) return nullptr;
    SDL_StartTextInput();
    in->last_frame = steady_s();
    return std::unique_ptr<Window>(new Window(std::move(in)));
}

bool Window::step(Screen& screen) {
    inside_->take_events();
    if (inside_->hidden) screen.hidden(*std::exchange(inside_->hidden, std::nullopt));
    inside_->follow_text_size();
    inside_->draw(screen);
    return !inside_->quit;
}

bool Window::more_input() const {
    SDL_PumpEvents();
    return inside_->frame->input.waiting() || inside_->frame->hold_input > 0 ||
           SDL_HasEvents(SDL_FIRSTEVENT, SDL_LASTEVENT) == SDL_TRUE;
}

Leave Window::show(Screen& screen) {
    inside_->frame->focus.put({}, false);
    inside_->frame->notes.clear();
    inside_->frame->scrolled.clear();  // each screen opens at its beginning
    inside_->frame->again = 2;
    for (;;) {
        if (!step(screen)) return Leave::quit;
        if (screen.leave() != Leave::stay) return screen.leave();
        if (more_input() || inside_->frame->again > 0) continue;
        const double wait_s = std::clamp(screen.draw_again_in_s(), 0.0, 60.0);
        inside_->wait(std::max(1, static_cast<int>(std::lround(wait_s * 1000))));
    }
}

bool Window::screenshot(const std::string& path) const {
    int w = 0, h = 0;
    SDL_GetRendererOutputSize(inside_->renderer, &w, &h);
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, w, h);
    const bool read = SDL_RenderReadPixels(inside_->renderer, nullptr, SDL_PIXELFORMAT_RGB888,
                                           cairo_image_surface_get_data(surface),
                                           cairo_image_surface_get_stride(surface)) == 0;
    cairo_surface_mark_dirty(surface);
    const bool written = read && cairo_surface_write_to_png(surface, path.c_str()) == CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return written;
}

Area Window::where(std::string_view id) const {
    const auto found = inside_->frame->where_last.find(std::string(id));
    return found == inside_->frame->where_last.end() ? Area{} : found->second;
}

std::vector<std::string> Window::overflows() const { return inside_->frame->overflows_last; }
std::vector<std::pair<std::string, Area>> Window::controls() const { return inside_->frame->controls_last; }
double Window::frame_cost_s() const { return inside_->cost; }
double Window::share_rendered() const { return inside_->share; }
void Window::always_whole(bool on) { inside_->always_whole = on; }

void Window::render_again() {
    int w = 0, h = 0;
    SDL_GetRendererOutputSize(inside_->renderer, &w, &h);
    inside_->render_whole(w, h);
}

std::vector<std::uint32_t> Window::pixels() const {
    int w = 0, h = 0;
    SDL_GetRendererOutputSize(inside_->renderer, &w, &h);
    std::vector<std::uint32_t> read(static_cast<std::size_t>(w) * static_cast<std::size_t>(h));
    if (SDL_RenderReadPixels(inside_->renderer, nullptr, SDL_PIXELFORMAT_RGB888, read.data(), w * 4) != 0)
        read.clear();
    return read;
}

std::string Window::focused() const { return inside_->frame->focus.id(); }
double Window::text_size() const { return inside_->text_size; }
void Window::set_text_size(double size) { inside_->asked_text_size = size; }

}  // namespace ui
