// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/standbyshelf.h"

#include "log/log.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <utility>

namespace ramplight {

StandbyShelf::StandbyShelf(std::unique_ptr<PhotoShelf> shared, const QString& folder)
    : m_shared(std::move(shared))
    , m_above(QFileInfo(folder).absolutePath())
    , m_here(folder)
{
}

bool StandbyShelf::isHere(const PhotoId& id) const
{
    return QFileInfo::exists(m_here.pathOf(id, PhotoForm::Full));
}

tl::expected<QByteArray, EvidenceError> StandbyShelf::read(const PhotoId& id, PhotoForm form) const
{
    if (auto here = m_here.read(id, form); here || here.error() != EvidenceError::NoSuchPhoto)
        return here;
    return m_shared->read(id, form);
}

tl::expected<void, EvidenceError> StandbyShelf::write(const PhotoId& id,
                                                      const std::vector<ShelvedBytes>& forms)
{
    auto shared = m_shared->write(id, forms);
    if (shared || shared.error() != EvidenceError::DatabaseAway)
        return shared;
    // A thumbnail without its photo is nothing to keep: it is made again.
    const bool isWhole = std::ranges::any_of(
        forms, [](const ShelvedBytes& one) { return one.form == PhotoForm::Full; });
    if (!isWhole && !isHere(id))
        return shared;
    if (!QFileInfo::exists(m_above)) {
        QDir().mkpath(m_above);
        QFile::setPermissions(m_above, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    }
    auto here = m_here.write(id, forms);
    if (here && isWhole)
        log::info(QStringLiteral("photo %1 is kept here until the server is back").arg(id.text));
    return here;
}

tl::expected<void, EvidenceError> StandbyShelf::touch(const PhotoId& id)
{
    // Brought away in between, it lies on the shared shelf.
    if (isHere(id) && m_here.touch(id))
        return {};
    return m_shared->touch(id);
}

tl::expected<bool, EvidenceError> StandbyShelf::remove(const PhotoId& id, Moment keptBefore)
{
    if (isHere(id))
        return false;
    return m_shared->remove(id, keptBefore);
}

tl::expected<std::vector<PhotoId>, EvidenceError> StandbyShelf::list() const
{
    auto all = m_shared->list();
    if (!all)
        return all;
    auto here = m_here.list();
    if (!here && here.error() == EvidenceError::FolderMissing)
        return all;
    if (!here)
        return here;
    all->insert(all->end(), here->begin(), here->end());
    std::sort(all->begin(), all->end());
    all->erase(std::unique(all->begin(), all->end()), all->end());
    return all;
}

} // namespace ramplight
