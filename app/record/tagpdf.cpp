// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/tagpdf.h"

#include "domain/say.h"
#include "domain/words.h"
#include "evidence/photovault.h"
#include "record/code128.h"
#include "record/paperpainter.h"
#include "record/papertype.h"
#include "record/recordwords.h"
#include "record/smallpage.h"

#include <QPageSize>
#include <QPainter>

#include <algorithm>

namespace ramplight {

namespace {

using namespace paper;

constexpr double tagWidth = 100 * mm;
constexpr double tagHeight = 60 * mm;
constexpr double edge = 5 * mm;
constexpr double barHeight = 16 * mm;
/// The widest module that fits is taken; a reader at arm's length wants no less than this.
constexpr double narrowestModule = 0.25 * mm;

QString codeOf(const TagModel& model)
{
    return (model.codePrefix + tagCode(model.tag)).toUpper();
}

void addLine(Page& page, double& y, const QString& text, Type type, Tone tone = Tone::Ink)
{
    if (text.isEmpty())
        return;
    page.emplace_back(Text{QPointF(edge, y + ascent(type)),
                           linesOf(text, type, tagWidth - 2 * edge).front(), type, tone});
    y += lineHeight(type);
}

/// Bars as thick upright rules from the foot of the tag.
bool addBars(Page& page, const QString& code)
{
    const std::vector<int> widths = code128(code);
    if (widths.empty())
        return false;
    int modules = 2 * code128Quiet;
    for (const int bar : widths)
        modules += bar;
    const double module = std::min(0.4 * mm, (tagWidth - 2 * mm) / modules);
    if (module < narrowestModule)
        return false;
    double x = (tagWidth - module * modules) / 2 + module * code128Quiet;
    const double top = tagHeight - edge - lineHeight(Type::Small) - barHeight;
    bool bar = true;
    for (const int count : widths) {
        const double across = module * count;
        if (bar)
            page.emplace_back(Rule{QLineF(x + across / 2, top, x + across / 2, top + barHeight),
                                   across, Tone::Ink, false});
        x += across;
        bar = !bar;
    }
    page.emplace_back(Text{QPointF((tagWidth - widthOf(code, Type::Small)) / 2,
                                   top + barHeight + ascent(Type::Small) + 0.6 * mm),
                           code, Type::Small, Tone::Ink});
    return true;
}

tl::expected<Page, QString> pageOf(const TagModel& model)
{
    Page page;
    double y = edge;
    addLine(page, y, model.tag.stockNumber, Type::Title);
    y += 0.8 * mm;
    addLine(page, y, model.cornerWords, Type::Lead, Tone::Accent);
    addLine(page, y, model.carWords, Type::Body);
    addLine(page, y, model.workWords, Type::Small, Tone::Muted);
    if (!addBars(page, codeOf(model)))
        return tl::unexpected(
            say("The stock number %1 cannot stand in a bar code.").arg(model.tag.stockNumber));
    return page;
}

/// A tag has no photos.
class NoPhotos : public PhotoVault
{
public:
    tl::expected<StoredPhoto, EvidenceError> keep(const QImage&) override
    {
        return tl::unexpected(EvidenceError::CannotWrite);
    }
    [[nodiscard]] tl::expected<QByteArray, EvidenceError> open(const PhotoId&) const override
    {
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    }
    [[nodiscard]] tl::expected<QByteArray, EvidenceError> thumbnail(const PhotoId&,
                                                                    ThumbnailSize) const override
    {
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    }
    [[nodiscard]] tl::expected<VaultReport, EvidenceError>
    verify(const std::set<PhotoId>&) const override
    {
        return VaultReport{};
    }
};

} // namespace

TagModel tagOf(const CarState& car, const PlaceId& wheel, const HouseRules& rules,
               const QString& codePrefix)
{
    QStringList work;
    for (const Operation* operation : car.openOperations())
        if (operation->place == wheel || operation->place == tyreOf(wheel))
            work.append(operation->spec->title);
    QString name = carName(car.identity);
    if (!car.identity.registration.isEmpty())
        name += QStringLiteral(", %1").arg(car.identity.registration);
    return {{car.identity.stockNumber, wheel},
            codePrefix,
            capital(placeWords(wheel, rules)),
            name,
            work.join(QStringLiteral(", "))};
}

tl::expected<QByteArray, QString> renderTagPdf(const TagModel& model)
{
    const auto page = pageOf(model);
    if (!page)
        return tl::unexpected(page.error());
    return smallPdf(QPageSize(QSizeF(tagWidth / mm, tagHeight / mm), QPageSize::Millimeter),
                    say("Wheel tag %1").arg(codeOf(model)), say("The tag could not be written."),
                    [&](QPainter& painter) { paintPage(painter, *page, NoPhotos()); });
}

QImage renderTagImage(const TagModel& model, double dpi)
{
    const auto page = pageOf(model);
    return smallImage(tagWidth, tagHeight, dpi, [&](QPainter& painter) {
        if (page)
            paintPage(painter, *page, NoPhotos());
    });
}

} // namespace ramplight
