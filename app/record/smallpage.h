// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QImage>
#include <QPageSize>
#include <QString>

#include <tl/expected.hpp>

#include <functional>

class QPainter;

// A paper of one page, as PDF and for the screen. Any thread.
namespace ramplight::paper {

/// Paints in hundredths of a millimetre.
using PaintPage = std::function<void(QPainter& painter)>;

/// Error: the page could not be written; the words are the caller's.
[[nodiscard]] tl::expected<QByteArray, QString> smallPdf(const QPageSize& size,
                                                         const QString& title,
                                                         const QString& otherwise,
                                                         const PaintPage& paint);
/// width, height in hundredths of a millimetre. White where nothing is painted.
[[nodiscard]] QImage smallImage(double width, double height, double dpi, const PaintPage& paint);

} // namespace ramplight::paper
