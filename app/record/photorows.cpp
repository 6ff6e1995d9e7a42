// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/photorows.h"

#include "domain/words.h"
#include "record/recordwords.h"

namespace ramplight::paper {

namespace {

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
    // Those that are alone in their row go two and two.
    for (std::size_t row = 1; row < rows.size(); ++row)
        if (rows[row - 1].size() == 1 && rows[row].size() == 1) {
            rows[row - 1].push_back(rows[row].front());
            rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(row));
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
        std::vector<Shot> shots;
        for (const RecordPhoto* photo : row)
            shots.push_back(
                {photo->photo,
                 QStringLiteral("%1 · %2\n%3")
                     .arg(capital(photo->words), times.brief(photo->at), model.nameOf(photo->by)),
                 photo->gone.isEmpty() ? QString() : capital(photo->gone)});
        flow.shots(x, shots);
    }
}

} // namespace ramplight::paper
