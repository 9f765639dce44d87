import { lazy, Suspense } from 'react'
import { Route, Switch } from 'wouter'
import { Waiting } from '../parts/waiting.tsx'
import Today from '../screens/today/today-screen.tsx'
import { NotHere } from './not-here.tsx'
import { paths } from './paths.ts'

const Floors = lazy(() => import('../screens/floors/floors-screen.tsx'))
const Bay = lazy(() => import('../screens/bay/bay-screen.tsx'))
const Ready = lazy(() => import('../screens/ready/ready-screen.tsx'))
const Ways = lazy(() => import('../screens/ways/ways-screen.tsx'))
const Audit = lazy(() => import('../screens/audit/audit-screen.tsx'))
const Faults = lazy(() => import('../screens/faults/faults-screen.tsx'))
const Fault = lazy(() => import('../screens/faults/fault/fault-screen.tsx'))
const ReportFault = lazy(() => import('../screens/faults/report/report-screen.tsx'))
const Handover = lazy(() => import('../screens/handover/handover-screen.tsx'))
const Bundle = lazy(() => import('../screens/handover/bundle-screen.tsx'))
const Entries = lazy(() => import('../screens/entries/entries-screen.tsx'))
const EntryPage = lazy(() => import('../screens/entries/entry-screen.tsx'))
const Correct = lazy(() => import('../screens/entries/correct-screen.tsx'))
const PickFact = lazy(() => import('../screens/record/pick-screen.tsx'))
const RecordFact = lazy(() => import('../screens/record/record-screen.tsx'))
const Import = lazy(() => import('../screens/import/import-screen.tsx'))
const SetUp = lazy(() => import('../screens/set-up/set-up-screen.tsx'))

/** One screen a route; all but the first are files of their own in the build. Screens read their ids with wouter's `useParams`. */
export function Routes() {
  return (
    <Suspense fallback={<Waiting />}>
      <Switch>
        <Route path={paths.today} component={Today} />
        <Route path="/floors/:floor?" component={Floors} />
        <Route path="/bay/:bay" component={Bay} />
        <Route path="/ready/:bay?" component={Ready} />
        <Route path="/ways/:about?" component={Ways} />
        <Route path="/audit/:part?/:bay?" component={Audit} />
        <Route path={paths.faults} component={Faults} />
        <Route path="/faults/report/:bay?" component={ReportFault} />
        <Route path="/faults/:fault" component={Fault} />
        <Route path={paths.handover} component={Handover} />
        <Route path={paths.bundle} component={Bundle} />
        <Route path={paths.entries} component={Entries} />
        <Route path="/entries/about/:subject" component={Entries} />
        <Route path="/entries/:entry" component={EntryPage} />
        <Route path="/entries/:entry/correct" component={Correct} />
        <Route path={paths.record} component={PickFact} />
        <Route path="/record/about/:subject" component={PickFact} />
        <Route path="/record/:kind/:subject" component={RecordFact} />
        <Route path="/import/:bay?" component={Import} />
        <Route path="/set-up/:part?/:thing?" component={SetUp} />
        <Route component={NotHere} />
      </Switch>
    </Suspense>
  )
}
