#include "ui/window/fonts.h"

#include <fontconfig/fontconfig.h>
#include <imgui.h>
#include <imgui_freetype.h>

#include <cmath>
#include <filesystem>

namespace ui {
namespace {

std::string font_file(bool bold) {
    const char* usual = bold ? "/usr/share/fonts/truetype/noto/NotoSans-Bold.ttf"
                             : "/usr/share/fonts/truetype/noto/NotoSans-Regular.ttf";
    if (std::filesystem::exists(usual)) return usual;  // asking fontconfig costs the first screen its time
    FcPattern* wanted = FcNameParse(reinterpret_cast<const FcChar8*>(bold ? "Noto Sans:bold" : "Noto Sans"));
    FcConfigSubstitute(nullptr, wanted, FcMatchPattern);
    FcDefaultSubstitute(wanted);
    FcResult result = FcResultNoMatch;
    FcPattern* found = FcFontMatch(nullptr, wanted, &result);
    std::string file;
    FcChar8* name = nullptr;
    if (found != nullptr && FcPatternGetString(found, FC_FILE, 0, &name) == FcResultMatch)
        file = reinterpret_cast<const char*>(name);
    if (found != nullptr) FcPatternDestroy(found);
    FcPatternDestroy(wanted);
    return file;
}

struct Size {
    float em;
    bool bold;
};
constexpr std::array<Size, type_count> sizes{
    {{24, true}, {18, true}, {16, false}, {16, true}, {13, false}, {22, false}, {34, false}}};
// The toolkit's size is ascender to descender; ours is the em, as a page designer gives it.
constexpr double height_per_em = 1.362;

}  // namespace

std::string build_fonts(double text_size, Fonts& fonts) {
    ImGuiIO& io = ImGui::GetIO();
    io.Fonts->Clear();
    io.Fonts->FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    io.Fonts->FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
    io.Fonts->TexDesiredWidth = 1024;
    io.Fonts->Flags |= ImFontAtlasFlags_NoMouseCursors;
    static const ImWchar letters[] = {0x20,   0x7E,   0xA0,   0x17F,  0x2010, 0x2015, 0x2018, 0x201E, 0x2022,
                                      0x2022, 0x2026, 0x2026, 0x2212, 0x2212, 0x2264, 0x2265, 0};
    const std::string regular = font_file(false), bold = font_file(true);
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const std::string& file = sizes[i].bold ? bold : regular;
        if (file.empty() || !std::filesystem::exists(file)) return "no font found: Noto Sans is needed";
        const auto pixels = static_cast<float>(std::round(sizes[i].em * text_size * height_per_em));
        fonts[i] = io.Fonts->AddFontFromFileTTF(file.c_str(), pixels, nullptr, letters);
        if (fonts[i] == nullptr) return "the font " + file + " cannot be read";
    }
    io.FontDefault = fonts[static_cast<std::size_t>(Type::text)];
    return io.Fonts->Build() ? std::string() : std::string("the letters could not be drawn");
}

}  // namespace ui
