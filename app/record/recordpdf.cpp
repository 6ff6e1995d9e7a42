// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordpdf.h"

#include "domain/say.h"
#include "record/paperpainter.h"
#include "record/recordlayout.h"
#include "record/recordparts.h"
#include "record/recordwords.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <cmath>

namespace ramplight {

namespace {

constexpr int unitsPerInch = 2540; // a hundredth of a millimetre
constexpr double screenDpi = 110;

/// Paints all pages; false when the writer did not take one.
bool write(QPdfWriter& writer, const std::vector<paper::Page>& pages, const PhotoVault& photos)
{
    QPainter painter;
    if (!painter.begin(&writer))
        return false;
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (i > 0 && !writer.newPage())
            return false;
        paper::paintPage(painter, pages[i], photos);
    }
    return painter.end();
}

/// The outline: what the anchors on the pages lead to.
std::vector<Bookmark> bookmarksOf(const std::vector<paper::Page>& pages)
{
    constexpr double pointsPerUnit = 72.0 / unitsPerInch;
    std::vector<Bookmark> bookmarks;
    for (std::size_t i = 0; i < pages.size(); ++i)
        for (const paper::Item& item : pages[i])
            if (const auto* anchor = std::get_if<paper::Anchor>(&item))
                bookmarks.push_back({anchor->title, anchor->level, static_cast<int>(i),
                                     (paper::pageHeight - anchor->at.y()) * pointsPerUnit});
    return bookmarks;
}

} // namespace

tl::expected<QByteArray, QString> renderPdf(const RecordModel& model, const PhotoVault& photos,
                                            const RecordSealer& sealer)
{
    const std::vector<paper::Page> pages = paper::layOut(model);
    QByteArray pdf;
    QBuffer buffer(&pdf);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(unitsPerInch);
        writer.setPageLayout(
            QPageLayout(QPageSize(QPageSize::A4), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0)));
        writer.setCreator(QStringLiteral("Ramplight"));
        if (!write(writer, pages, photos))
            return tl::unexpected(say("The record's pages could not be written."));
    }
    return stampPdf(pdf, stampOf(model),
                    {documentTitle(model), recordLanguage(), bookmarksOf(pages)}, sealer);
}

std::vector<QImage> renderPages(const RecordModel& model, const PhotoVault& photos)
{
    std::vector<QImage> images;
    constexpr double scale = screenDpi / unitsPerInch;
    const QSize size(static_cast<int>(std::lround(paper::pageWidth * scale)),
                     static_cast<int>(std::lround(paper::pageHeight * scale)));
    for (const paper::Page& page : paper::layOut(model)) {
        QImage image(size, QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        painter.scale(scale, scale);
        paper::paintPage(painter, page, photos);
        painter.end();
        images.push_back(std::move(image));
    }
    return images;
}

} // namespace ramplight
