// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/catalogueview.h"
#include "kiosk/competenceview.h"
#include "kiosk/filesview.h"
#include "kiosk/rulesview.h"
#include "kiosk/sitesview.h"
#include "kiosk/timesview.h"
#include "kiosk/toolsview.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// What a manager sets for the house, and who set what before. GUI thread.
class SettingsView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::RulesView* rules READ rules CONSTANT FINAL)
    Q_PROPERTY(ramplight::ToolsView* tools READ tools CONSTANT FINAL)
    Q_PROPERTY(ramplight::CatalogueView* catalogue READ catalogue CONSTANT FINAL)
    Q_PROPERTY(ramplight::CompetenceView* competence READ competence CONSTANT FINAL)
    Q_PROPERTY(ramplight::TimesView* times READ times CONSTANT FINAL)
    Q_PROPERTY(ramplight::FilesView* files READ files CONSTANT FINAL)
    Q_PROPERTY(ramplight::SitesView* sites READ sites CONSTANT FINAL)
    /// Changes of the house, the last one first. Read by refresh() and after each change.
    Q_PROPERTY(ramplight::SiteChangesModel* changes READ changes CONSTANT FINAL)

public:
    SettingsView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                 QObject* parent = nullptr);

    [[nodiscard]] RulesView* rules() { return &m_rules; }
    [[nodiscard]] ToolsView* tools() { return &m_tools; }
    [[nodiscard]] CatalogueView* catalogue() { return &m_catalogue; }
    [[nodiscard]] CompetenceView* competence() { return &m_competence; }
    [[nodiscard]] TimesView* times() { return &m_times; }
    [[nodiscard]] FilesView* files() { return &m_files; }
    [[nodiscard]] SitesView* sites() { return &m_sites; }
    [[nodiscard]] SiteChangesModel* changes() { return &m_changes; }

    /// When the settings open.
    Q_INVOKABLE void refresh();

private:
    void readChanges();
    void show(const std::vector<SiteEnvelope>& history);

    Desk& m_desk;
    SiteBook& m_book;
    RulesView m_rules;
    ToolsView m_tools;
    CatalogueView m_catalogue;
    CompetenceView m_competence;
    TimesView m_times;
    FilesView m_files;
    SitesView m_sites;
    SiteChangesModel m_changes;
    bool m_open = false;
};

} // namespace ramplight
