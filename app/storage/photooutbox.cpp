// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/photooutbox.h"

#include "evidence/photokeeper.h"
#include "log/log.h"
#include "storage/photorows.h"

#include <QDir>
#include <QFile>

#include <limits>
#include <utility>

namespace ramplight {

PhotoOutbox::PhotoOutbox(const QString& folder)
    : m_folder(folder)
    , m_shelf(folder)
{
}

std::vector<PhotoId> PhotoOutbox::waiting() const
{
    auto listed = m_shelf.list();
    if (!listed && listed.error() != EvidenceError::FolderMissing)
        log::error(QStringLiteral("photos kept here: %1").arg(words(listed.error())));
    return listed ? std::move(*listed) : std::vector<PhotoId>();
}

bool PhotoOutbox::waits(const PhotoId& photo) const
{
    return isPhotoId(photo) && QFile::exists(m_shelf.pathOf(photo, PhotoForm::Full));
}

tl::expected<bool, SqlFault> PhotoOutbox::bring(const PhotoId& photo, Connection& server,
                                                const SiteId& site)
{
    if (waits(photo)) {
        auto sent = send(photo, server, site);
        if (!sent || *sent)
            return sent;
    }
    return hasPhotoRows(server, site, photo);
}

tl::expected<void, SqlFault> PhotoOutbox::bringAll(Connection& server, const SiteId& site,
                                                   const std::function<bool()>& goesOn)
{
    for (const PhotoId& photo : waiting()) {
        if (!goesOn())
            break;
        if (auto sent = send(photo, server, site); !sent)
            return tl::unexpected(sent.error());
    }
    return {};
}

tl::expected<bool, SqlFault> PhotoOutbox::send(const PhotoId& photo, Connection& server,
                                               const SiteId& site)
{
    auto full = m_shelf.read(photo, PhotoForm::Full);
    if (!full && full.error() == EvidenceError::NoSuchPhoto)
        return false; // another thread was quicker
    if (!full || photoIdOf(*full) != photo) {
        setAside(photo);
        return false;
    }
    // The full picture last: where it is, its thumbnails are, or they are made again.
    std::vector<ShelvedBytes> forms;
    for (const PhotoForm form : {PhotoForm::Panel, PhotoForm::Card})
        if (auto smaller = m_shelf.read(photo, form); smaller && !smaller->isEmpty())
            forms.push_back({form, std::move(*smaller)});
    forms.push_back({PhotoForm::Full, std::move(*full)});
    if (auto written = writePhotoRows(server, site, photo, forms); !written)
        return tl::unexpected(written.error());
    // Whatever time the file has, also one that is still to come: the server has it.
    const Moment anyTime{std::numeric_limits<qint64>::max()};
    if (const auto removed = m_shelf.remove(photo, anyTime); !removed)
        log::warn(QStringLiteral("photo %1 is on the server and could not be removed here: %2")
                      .arg(photo.text, words(removed.error())));
    return true;
}

void PhotoOutbox::setAside(const PhotoId& photo)
{
    const QString damaged = m_folder + QStringLiteral("/damaged");
    const QString to = damaged + QLatin1Char('/') + photo.text + QStringLiteral(".jpg");
    QDir().mkpath(damaged);
    QFile::remove(to);
    const bool moved = QFile::rename(m_shelf.pathOf(photo, PhotoForm::Full), to);
    log::error(QStringLiteral("photo %1 that was kept here is damaged%2")
                   .arg(photo.text)
                   .arg(moved ? QStringLiteral("; it is set aside") : QString()));
}

} // namespace ramplight
