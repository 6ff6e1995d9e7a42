// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/desk.h"
#include "kiosk/session.h"
#include "kiosk/settingslists.h"
#include "kiosk/ticker.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// As a list shows files that were brought: when, and on which stick.
[[nodiscard]] std::vector<FileRow> fileRows(const std::vector<DroppedFile>& files,
                                            const SiteBook& book, Moment now);

/// The house and its catalogue as files in the drop folder. refresh() when the screen opens. GUI
/// thread.
class FilesView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::FilesModel* files READ files CONSTANT FINAL)
    /// What the last action did: "Written into ..."; empty.
    Q_PROPERTY(QString said READ said NOTIFY changed FINAL)
    /// Why a file was not taken in, fault by fault.
    Q_PROPERTY(QStringList faults READ faults NOTIFY changed FINAL)

public:
    FilesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
              QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] FilesModel* files() { return &m_files; }
    [[nodiscard]] QString said() const { return m_said; }
    [[nodiscard]] QStringList faults() const { return m_faults; }

    Q_INVOKABLE void refresh();
    Q_INVOKABLE void exportAll();
    /// Signed with the PIN of somebody who may manage.
    Q_INVOKABLE void take(const QString& path);

signals:
    void changed();

private:
    void say(const QString& words, const QStringList& faults);
    void send(const CommandId& request, PersonId manager, const QString& path);

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    Ask m_ask;
    FilesModel m_files;
    QString m_said;
    QStringList m_faults;
};

} // namespace ramplight
