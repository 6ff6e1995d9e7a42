// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/desk.h"

#include <QObject>
#include <QtQmlIntegration>

#include <memory>
#include <mutex>

namespace ramplight {

/// The pages that the record screen shows, for its image provider. Any thread.
class RecordPagesShelf
{
public:
    /// Takes the place of the record before.
    void put(int edition, std::vector<QImage> pages);
    /// A null image when there is no such page, or another record has taken its place.
    [[nodiscard]] QImage page(int edition, int index) const;

private:
    mutable std::mutex m_mutex;
    int m_edition = 0;
    std::vector<QImage> m_pages;
};

/// The handover record of a car: made, shown, saved, printed. Answers through `ask`
/// (what: "make", "save", "print"). GUI thread.
class RecordView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString stockNumber READ stockNumber NOTIFY changed FINAL)
    Q_PROPERTY(bool made READ made NOTIFY changed FINAL)
    Q_PROPERTY(QString fingerprint READ fingerprint NOTIFY changed FINAL)
    Q_PROPERTY(QStringList pageUrls READ pageUrls NOTIFY changed FINAL) ///< for Images
    Q_PROPERTY(QString savedPath READ savedPath NOTIFY changed FINAL)
    Q_PROPERTY(QString printer READ printer NOTIFY changed FINAL) ///< empty: none is set
    Q_PROPERTY(QString stick READ stick NOTIFY changed FINAL)     ///< empty: none is in
    /// What became of printing it: sent, or what the printer waits for; empty.
    Q_PROPERTY(QString printedWords READ printedWords NOTIFY changed FINAL)

public:
    RecordView(Desk& desk, std::shared_ptr<RecordPagesShelf> shelf, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString stockNumber() const { return m_stockNumber; }
    [[nodiscard]] bool made() const { return !m_pdf.isEmpty(); }
    [[nodiscard]] QString fingerprint() const { return m_fingerprint; }
    [[nodiscard]] QStringList pageUrls() const { return m_urls; }
    [[nodiscard]] QString savedPath() const { return m_savedPath; }
    [[nodiscard]] QString printer() const { return m_desk.printer(); }
    [[nodiscard]] QString stick() const { return m_stick; }
    [[nodiscard]] QString printedWords() const { return m_printedWords; }

    Q_INVOKABLE void make(const QString& carId, const QString& stockNumber);
    Q_INVOKABLE void save();
    Q_INVOKABLE void saveToStick();
    Q_INVOKABLE void print();
    Q_INVOKABLE void close();

signals:
    void changed();

private:
    void keep(const std::function<QFuture<tl::expected<QString, QString>>()>& file);

    Desk& m_desk;
    std::shared_ptr<RecordPagesShelf> m_shelf;
    Ask m_ask;
    QString m_stockNumber;
    QByteArray m_pdf;
    QString m_fingerprint;
    QStringList m_urls;
    QString m_savedPath;
    QString m_printedWords;
    QString m_stick;
    int m_edition = 0; // so that an Image never shows the page of an earlier record
};

} // namespace ramplight
