// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordpdf.h"

#include "record/paperpainter.h"
#include "record/recordlayout.h"
#include "record/recordwords.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <cmath>

namespace ramplight {

namespace {

constexpr int unitsPerInch = 2540; // a hundredth of a millimetre
constexpr double screenDpi = 110;

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

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

} // namespace

tl::expected<QByteArray, QString> renderPdf(const RecordModel& model, const PhotoVault& photos)
{
    QByteArray pdf;
    QBuffer buffer(&pdf);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(unitsPerInch);
        writer.setPageLayout(
            QPageLayout(QPageSize(QPageSize::A4), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0)));
        writer.setTitle(
            say("Handover record %1, %2").arg(model.identity.stockNumber, carName(model.identity)));
        writer.setCreator(QStringLiteral("Ramplight"));
        if (!write(writer, paper::layOut(model), photos))
            return tl::unexpected(say("The record's pages could not be written."));
    }
    return stampPdf(pdf, {model.car.text, model.identity.stockNumber, model.seq, model.headHash,
                          model.digest(), model.madeAt});
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
