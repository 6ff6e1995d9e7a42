// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QBitArray>
#include <QString>

class QPainter;
class QRectF;

namespace ramplight {

/// A QR code (ISO/IEC 18004) as its modules, row by row, without the quiet zone around it.
struct QrCode
{
    int side = 0;      ///< modules; 0 where there is no code
    QBitArray modules; ///< side * side; true is dark

    [[nodiscard]] bool dark(int x, int y) const { return modules.testBit(y * side + x); }
};

/// The smallest code that holds the text (UTF-8) and stays readable when 15 % of it are hidden
/// (level M). No code for an empty text or one longer than about 2,300 bytes.
[[nodiscard]] QrCode qrCode(const QString& text);

/// Paints it as large as whole pixels allow into the middle of the place, black on white with the
/// standard's four modules of quiet zone, which a reader needs.
void paintQrCode(QPainter& painter, const QrCode& code, const QRectF& place);

} // namespace ramplight
