// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"
#include "kiosk/recordview.h"

#include <QMutex>
#include <QQuickAsyncImageProvider>
#include <QThreadPool>

namespace ramplight {

/// Answers the addresses of photourl.h under "image://photo/". Reads and decodes on a pool of its
/// own, never on the screen's thread. What cannot be read gives an Image its error state.
class PhotoProvider : public QQuickAsyncImageProvider
{
public:
    /// The vault outlives the provider.
    explicit PhotoProvider(const PhotoVault& vault);
    ~PhotoProvider() override;

    QQuickImageResponse* requestImageResponse(const QString& id,
                                              const QSize& requestedSize) override;

    /// Waits for what is being read and reads nothing more: the vault may go afterwards, although
    /// the engine's own threads keep the provider for a while.
    void close();

private:
    const PhotoVault& m_vault;
    QThreadPool m_pool;
    QMutex m_gate;
    bool m_closed = false; ///< under m_gate
};

/// Pages of the record that is shown, under "image://record/".
class PageProvider : public QQuickImageProvider
{
public:
    explicit PageProvider(std::shared_ptr<const RecordPagesShelf> shelf);

    QImage requestImage(const QString& id, QSize* size, const QSize& requestedSize) override;

private:
    std::shared_ptr<const RecordPagesShelf> m_shelf;
};

} // namespace ramplight
