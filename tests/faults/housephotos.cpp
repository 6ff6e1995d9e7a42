// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "housephotos.h"

#include "evidence/photostore.h"
#include "evidence/standbyshelf.h"
#include "storage/sqlphotoshelf.h"

namespace ramplight::test {

std::unique_ptr<PhotoKeeper> photosOf(const StoreSettings& settings)
{
    if (settings.kind == StoreKind::Sqlite)
        return std::make_unique<PhotoStore>(settings.file + QStringLiteral("-photos"));
    auto shared = std::make_unique<SqlPhotoShelf>(settings);
    if (settings.keptPhotos.isEmpty())
        return std::make_unique<PhotoKeeper>(std::move(shared));
    return std::make_unique<PhotoKeeper>(
        std::make_unique<StandbyShelf>(std::move(shared), settings.keptPhotos));
}

QImage anyPicture(Dice& dice)
{
    QImage picture(16, 12, QImage::Format_RGB32);
    for (int y = 0; y < picture.height(); ++y)
        for (int x = 0; x < picture.width(); ++x)
            picture.setPixel(x, y, qRgb(dice.below(256), dice.below(256), 128));
    return picture;
}

} // namespace ramplight::test
