// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/seenbefore.h"

#include "evidence/photoquality.h"
#include "kiosk/answer.h"

#include <algorithm>

namespace ramplight {

void tellSeenBefore(Desk& desk, QObject* context, const PhotoTarget& target, const CarState& car,
                    std::vector<PhotoTaken> taken,
                    std::function<void(const std::vector<PhotoTaken>&)> then)
{
    std::vector<PhotoId> fresh;
    for (const PhotoTaken& photo : taken)
        fresh.push_back(photo.photo.id);
    whenReady(desk.photosSeenBefore(fresh, target.earlierOnes(car, fresh.size())), context,
              [taken = std::move(taken),
               then = std::move(then)](const std::vector<PhotoId>& seen) mutable {
                  for (PhotoTaken& photo : taken)
                      if (std::ranges::find(seen, photo.photo.id) != seen.end())
                          photo.warnings.append(words(PhotoWarning::AlmostSame));
                  then(taken);
              });
}

} // namespace ramplight
