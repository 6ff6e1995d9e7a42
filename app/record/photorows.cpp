// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/photorows.h"

#include "record/papertype.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

constexpr double between = 4 * mm;
constexpr double photoWidth = 46 * mm;
constexpr double photoHeight = photoWidth * 3 / 4;

/// What stands in each row: the i-th photo of each moment, so that before and after of one thing
/// are neighbours; moments that are nowhere leave no column.
std::vector<std::vector<const RecordPhoto*>> rowsOf(const std::vector<RecordPhoto>& photos)
{
    std::vector<std::vector<const RecordPhoto*>> rows;
    for (const PhotoMoment moment :
         {PhotoMoment::Before, PhotoMoment::During, PhotoMoment::After}) {
        std::size_t row = 0;
        for (const RecordPhoto& photo : photos)
            if (photo.moment == moment) {
                if (row == rows.size())
                    rows.emplace_back();
                rows[row++].push_back(&photo);
            }
    }
    return rows;
}

} // namespace

void addPhotoRows(Flow& flow, const RecordModel& model, const std::vector<RecordPhoto>& photos,
                  double x)
{
    const RecordTimes times(model.rules.timeZone);
    // Only the first row stays with the words in front of it.
    if (!photos.empty())
        flow.keepWithNext();
    for (const auto& row : rowsOf(photos)) {
        Block block;
        double at = x;
        double captions = 0;
        const double top = 1.2 * mm;
        for (const RecordPhoto* photo : row) {
            block.items.push_back(Photo{QRectF(at, top, photoWidth, photoHeight), photo->photo});
            double y = top + photoHeight + 0.6 * mm;
            const QString caption =
                QStringLiteral("%1 · %2\n%3")
                    .arg(capital(photo->words), times.brief(photo->at), model.nameOf(photo->by));
            for (const QString& line : linesOf(caption, Type::Small, photoWidth)) {
                block.items.push_back(
                    Text{{at, y + ascent(Type::Small)}, line, Type::Small, Tone::Muted});
                y += lineHeight(Type::Small);
            }
            captions = std::max(captions, y);
            at += photoWidth + between;
        }
        block.height = captions + 1 * mm;
        flow.block(std::move(block));
    }
}

} // namespace ramplight::paper
