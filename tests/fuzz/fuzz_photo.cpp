// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Files as photos: taken in, and what comes of it held against what must always be so. The
// libraries that decode are the system's; what they do to memory is watched, their own steps are
// not.
#include "fuzzing.h"

#include "evidence/photodecoder.h"
#include "evidence/photofacts.h"
#include "evidence/photoquality.h"

#include <QColorSpace>
#include <QLoggingCategory>

#include <algorithm>

using namespace ramplight;
using fuzz::must;

namespace {

/// Small, so that no time goes into pixels; the bounds are the same code.
constexpr PhotoLimits limits{.mostBytes = 400'000,
                             .mostPixels = 400'000,
                             .mostPixelsProgressive = 200'000,
                             .mostPixelsPng = 200'000,
                             .longSide = 96};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static const bool quiet = [] {
        QLoggingCategory::setFilterRules(QStringLiteral("qt.gui.*=false"));
        return true;
    }();
    Q_UNUSED(quiet)
    const QByteArray file(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    const auto facts = photoFacts(file);
    const auto image = decodePhoto(file, limits);
    if (!image) {
        must(!words(image.error()).isEmpty(), "a refusal has words");
        return 0;
    }
    must(facts.has_value(), "nothing is taken in whose structure was refused");
    must(!image->isNull() && image->format() == QImage::Format_RGB32, "a picture");
    must(std::max(image->width(), image->height()) <= limits.longSide, "as large as it may be");
    must(image->textKeys().isEmpty() && !image->colorSpace().isValid(), "it carries only pixels");
    const auto kept = encodePhoto(*image);
    must(kept && !kept->contains("Exif") && !kept->contains("ICC_PROFILE"),
         "what is kept carries only pixels");
    const auto again = decodePhoto(*kept, limits);
    must(again && again->size() == image->size(), "what was kept can be read");
    must(judgePhoto(*image).warnings.size() <= 10, "warnings have an end");
    return 0;
}
