// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"

namespace ramplight {

struct DropRow
{
    QString path; ///< for attachFiles
    QString name;
    QString url;
    QString whenWords;   ///< the file's date: "10:42"
    QString besideWords; ///< how that lies to the work: "while the work ran"; empty
    QString stick;       ///< where it is, when that is not the drop folder
    bool picked = false;

    [[nodiscard]] QString key() const { return path; }
    friend bool operator==(const DropRow&, const DropRow&) = default;
};

/// Photos that wait in the drop folder and on sticks, newest first, and which of them were picked.
/// Roles: path, name, url (for an Image), whenWords, besideWords, stick, picked. GUI thread.
class DropModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool busy READ busy NOTIFY stateChanged FINAL)
    /// Why there is nothing: the folder cannot be read; empty when all is well.
    Q_PROPERTY(QString fault READ fault NOTIFY stateChanged FINAL)
    /// Paths, in the order in which they were picked.
    Q_PROPERTY(QStringList picked READ picked NOTIFY stateChanged FINAL)

public:
    DropModel(Desk& desk, const CarView& car, SiteBook& book, Ticker& ticker,
              QObject* parent = nullptr);

    [[nodiscard]] bool busy() const { return m_busy; }
    [[nodiscard]] QString fault() const { return m_fault; }
    [[nodiscard]] QStringList picked() const { return m_picked; }

    /// A list is opened: nothing is picked, and dates are told beside this work of the car that is
    /// open (0: beside none).
    Q_INVOKABLE void open(int operationId);
    /// Looks again; what was picked and is still there stays so.
    Q_INVOKABLE void refresh();
    /// Picks a file, or leaves it after all. Not several: instead of the one before.
    Q_INVOKABLE void pick(const QString& path, bool several);

signals:
    void stateChanged();

private:
    void show();

    Desk& m_desk;
    const CarView& m_car;
    SiteBook& m_book;
    Ticker& m_ticker;
    std::vector<DroppedFile> m_files;
    OperationId m_work; ///< null: none
    QStringList m_picked;
    QString m_fault;
    bool m_busy = false;
};

} // namespace ramplight
